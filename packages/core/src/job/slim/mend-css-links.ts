import type { Drawing } from '../../drawing/drawing.js';
import type { Edit } from '../../drawing/edit-text.js';
import { type FileLink, isRelative } from '../../drawing/list-links.js';
import type { LinkFinder } from '../../read/find-linked.js';
import { partsOf, relink } from './move-links.js';
import { type LinkPlace, toHref } from './slim-links.js';

/** A link in CSS, and what it is told by. */
export interface NamedLink {
  /** Of its element, or `style 2` for the second that has none. */
  readonly id: string;
  /** Where it leads. */
  readonly href: string;
}

/** A link in CSS that leads to nothing that may be read. */
interface MissingLink extends NamedLink {
  /** Why, to follow the link. */
  readonly why: string;
  /** Files that may be meant. */
  readonly likely: readonly string[];
}

/** What became of links in a drawing's CSS. */
export interface MendedCssLinks {
  /** Those of them that lead elsewhere now. */
  readonly edits: readonly Edit[];
  /** Where they begin. */
  readonly mended: ReadonlySet<number>;
  /** Those that were broken, and where they lead now. */
  readonly relinked: readonly NamedLink[];
  /** Those that lead to nothing. */
  readonly missing: readonly MissingLink[];
  /** Files that they lead to. */
  readonly files: readonly string[];
}

/**
 * Follow links in a drawing's attributes and style sheets, and mend those that lead to a file otherwise than
 * from where the drawing is to lie.
 *
 * @param drawing - As it lies in the old folder.
 * @param links - All of its.
 * @param finder - What follows them.
 * @param place - Both folders.
 * @returns What became of them.
 */
export async function mendCssLinks(
  drawing: Drawing,
  links: readonly FileLink[],
  finder: LinkFinder,
  place: LinkPlace,
): Promise<MendedCssLinks> {
  const edits: Edit[] = [];
  const mended = new Set<number>();
  const relinked: NamedLink[] = [];
  const missing: MissingLink[] = [];
  const files = new Set<string>();
  for (const link of links) {
    if (!link.isCss) continue;
    const id = idOf(drawing, link);
    const found = await finder.follow(link.value);
    if (found.kind === 'missing') {
      const { why, likely } = found;
      missing.push({ id, href: link.value, why, likely });
      continue;
    }
    files.add(found.path);
    const isPlain = isRelative(link) && link.base === null;
    if (found.asLinked && isPlain && place.own === place.folder) continue;
    const href = toHref(place.folder, found.path);
    edits.push(relink(link, href + partsOf(link).rest));
    mended.add(link.start);
    if (!found.asLinked) relinked.push({ id, href });
  }
  return { edits, mended, relinked, missing, files: [...files] };
}

function idOf({ elements }: Drawing, { element: { id, name, index } }: FileLink): string {
  if (id !== null) return id;
  const number = elements.filter((one) => one.index <= index && one.name === name).length;
  return `${name} ${number}`;
}
