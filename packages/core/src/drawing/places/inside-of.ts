import { attributesOf, targetOf } from '../attributes-of.js';
import { type Drawing, type DrawingElement, isSvg } from '../drawing.js';

const containers = ['pattern', 'mask', 'marker', 'filter', 'clipPath'];

/**
 * Find the elements that are part of something with coordinates of its own, by standing in it or by
 * being used in it.
 *
 * @param drawing - Read.
 * @returns What each is part of, by its index.
 */
export function insideOf(drawing: Drawing): ReadonlyMap<number, string> {
  const found = new Map<number, string>();
  const waiting: { readonly element: DrawingElement; readonly of: string }[] = drawing.elements
    .filter((element) => isSvg(element, ...containers))
    .map((element) => ({ element, of: element.name }));
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    const { element, of } = next;
    if (found.has(element.index)) continue;
    for (let at = element.index; at <= element.last; at++) {
      const part = drawing.elements[at];
      if (part === undefined || found.has(at)) continue;
      found.set(at, of);
      if (!isSvg(part, 'use', 'feImage')) continue;
      const target = targetOf(drawing, attributesOf(drawing, part));
      if (target !== undefined) waiting.push({ element: target, of });
    }
  }
  return found;
}
