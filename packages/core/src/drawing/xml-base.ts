import { attributesOf } from './attributes-of.js';
import type { Drawing, DrawingAttribute, DrawingElement } from './drawing.js';

/** From where the links on an element count. */
export interface LinkBase {
  /** As `xml:base` says, there and around it; relative to the drawing where it begins at no root. */
  readonly address: string;
  /** What says so, the outermost first. */
  readonly attributes: readonly DrawingAttribute[];
}

/**
 * Look up from where links count, where a drawing says so itself.
 *
 * @param drawing - Read.
 * @returns What tells it of an element: null where links count from the drawing.
 * @see XML Base, second edition, 4; SVG 1.1, 5.10
 */
export function basesOf(drawing: Drawing): (element: DrawingElement) => LinkBase | null {
  if (!drawing.rebased) return () => null;
  const known = new Map<DrawingElement | null, LinkBase | null>([[null, null]]);
  const baseOf = (element: DrawingElement): LinkBase | null => {
    const before = known.get(element);
    if (before !== undefined) return before;
    const around = element.parent === null ? null : baseOf(element.parent);
    const own = attributesOf(drawing, element).find(({ qualified }) => qualified === 'xml:base');
    const base =
      own === undefined
        ? around
        : {
            address: resolveLink(own.value.trim(), around),
            attributes: [...(around?.attributes ?? []), own],
          };
    known.set(element, base);
    return base;
  };
  return baseOf;
}

/**
 * Follow a link from where it counts. One into the drawing itself stays: programs take it so whatever
 * `xml:base` says.
 *
 * @param href - As it stands.
 * @param base - From where, or null for the drawing.
 * @returns From the drawing; the link as it stands where it counts from nowhere else.
 * @see RFC 3986, 5.2
 */
export function resolveLink(href: string, base: LinkBase | null): string {
  const link = href.trim();
  if (base === null || /^(?:$|#|\\|\/\/|[a-z][a-z0-9+.-]*:)/i.test(link)) return href;
  const [path = ''] = base.address.split(/[?#]/, 1);
  const [root = ''] = /^(?:[a-z][a-z0-9+.-]*:)?\/\/[^/]*/i.exec(path) ?? [];
  if (link.startsWith('/')) return root + link;
  const folder = path.slice(root.length, Math.max(root.length, path.lastIndexOf('/') + 1));
  return `${root}${folder === '' && root !== '' ? '/' : folder}${link}`;
}
