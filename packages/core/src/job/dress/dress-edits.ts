import { coverOutlines } from '../../drawing/dress/cover-outlines.js';
import type { Dressing } from '../../drawing/dress/cover-outline.js';
import { storeSurfaces, type SurfacePicture } from '../../drawing/dress/store-pictures.js';
import type { Drawing } from '../../drawing/drawing.js';
import type { Edit } from '../../drawing/edit-text.js';
import { freshIds } from '../../drawing/markup.js';
import type { DressedWith } from './dress-surfaces.js';

/** What covers a drawing's outlines. */
export interface DressEdits {
  /** To be made; or, to follow the drawing's name, why there are none. */
  readonly edits: readonly Edit[] | string;
  /** Ids of the surfaces' pictures, in their order. */
  readonly ids: readonly string[];
}

/**
 * Put what covers outlines into edits of the drawing's text.
 *
 * @param drawing - Undressed.
 * @param dressed - Surfaces, and what they cover.
 * @param links - Of the surfaces' pictures, in their order.
 * @returns What to change, and how pictures are named.
 */
export function dressEdits(
  drawing: Drawing,
  dressed: readonly DressedWith[],
  links: readonly string[],
): DressEdits {
  const freshId = freshIds(drawing);
  const dressings: Dressing[] = [];
  const pictures: SurfacePicture[] = [];
  for (const { laid, under, pictures: made } of dressed) {
    const first = pictures.length;
    for (const { width, height } of made) {
      const href = links[pictures.length] ?? '';
      pictures.push({ id: freshId('gaugerod-picture'), href, width, height });
    }
    for (const [k, { outline }] of laid.entries()) {
      const { picture = 0, places = [] } = under[k] ?? {};
      dressings.push({ outline, picture: pictures[first + picture]?.id ?? '', places });
    }
  }
  const covered = coverOutlines(drawing, dressings, freshId);
  const ids = pictures.map(({ id }) => id);
  if ('fault' in covered) return { edits: covered.fault, ids };
  return { edits: [storeSurfaces(drawing, pictures), ...covered.edits], ids };
}
