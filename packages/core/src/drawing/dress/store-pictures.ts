import type { Drawing } from '../drawing.js';
import type { Edit } from '../edit-text.js';
import { escapeText, linkNameAt } from '../markup.js';
import { mark, ours } from './mark.js';

/** A picture that outlines are covered with. */
export interface SurfacePicture {
  /** Its id. */
  readonly id: string;
  /** Its link: a file, or the picture itself. */
  readonly href: string;
  /** Columns. */
  readonly width: number;
  /** Rows. */
  readonly height: number;
}

/**
 * Store pictures at the head of a drawing, once each, for outlines to use.
 *
 * @param drawing - As read.
 * @param pictures - One or more.
 * @returns The edit.
 */
export function storeSurfaces(drawing: Drawing, pictures: readonly SurfacePicture[]): Edit {
  const { contentStart, prefix: own, scope } = drawing.root;
  const prefix = own === '' ? '' : `${own}:`;
  const link = linkNameAt(scope);
  const images = pictures.map(({ id, href, width, height }) => {
    const size = `width="${width}" height="${height}" preserveAspectRatio="none"`;
    return `<${prefix}image id="${id}" ${size} ${link}="${escapeText(href)}"/>`;
  });
  const text = `<${prefix}defs ${mark}="${ours.pictures}">${images.join('')}</${prefix}defs>`;
  return { start: contentStart, end: contentStart, text };
}
