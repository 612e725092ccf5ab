import { attributesOf } from './attributes-of.js';
import { type Drawing, type DrawingAttribute, isSvg, namespaces } from './drawing.js';
import { undress } from './dress/undress.js';

const linking = ['a', 'feImage', 'image', 'script', 'use'];

/** A link that leads from where the drawing lies to another file. */
export interface FileLink {
  /** Index of the element that it is on. */
  readonly element: number;
  /** Where it stands. */
  readonly attribute: DrawingAttribute;
}

/**
 * List links that hold from where a drawing lies and from nowhere else. Addresses, paths from the root and
 * pictures in the drawing are none of them, nor is what an earlier dressing added.
 *
 * @param drawing - As read.
 * @returns In the order in which they stand; an element with both names of a link has two.
 * @see RFC 3986, 4.2: relative reference
 */
export function listLinks(drawing: Drawing): FileLink[] {
  const gone = undress(drawing);
  return drawing.elements.flatMap((element) => {
    if (!isSvg(element, ...linking)) return [];
    if (gone.some(({ start, end }) => start <= element.start && element.start < end)) return [];
    return attributesOf(drawing, element)
      .filter(isRelative)
      .map((attribute) => ({ element: element.index, attribute }));
  });
}

function isRelative({ name, namespace, raw }: DrawingAttribute): boolean {
  if (name !== 'href' || (namespace !== null && namespace !== namespaces.xlink)) return false;
  return !/^\s*(?:$|[#?/\\&]|[a-z][a-z0-9+.-]*:)/i.test(raw);
}
