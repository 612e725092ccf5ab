import { attributesOf, targetOf } from '../attributes-of.js';
import { type Drawing, type DrawingElement, isSvg } from '../drawing.js';

/**
 * Find the elements in or through which elements of some names show: a walk may pass by all others,
 * however often they use one another.
 *
 * @param drawing - Read.
 * @param names - Of SVG's own elements.
 * @returns Their indexes.
 */
export function leadsTo(drawing: Drawing, names: readonly string[]): ReadonlySet<number> {
  const users = new Map<number, DrawingElement[]>();
  const waiting: DrawingElement[] = [];
  for (const element of drawing.elements) {
    if (isSvg(element, ...names)) waiting.push(element);
    if (!isSvg(element, 'use')) continue;
    const target = targetOf(drawing, attributesOf(drawing, element));
    if (target === undefined) continue;
    const known = users.get(target.index);
    if (known === undefined) users.set(target.index, [element]);
    else known.push(element);
  }
  const leads = new Set<number>();
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    for (let at: DrawingElement | null = next; at !== null; at = at.parent) {
      if (leads.has(at.index)) break;
      leads.add(at.index);
      waiting.push(...(users.get(at.index) ?? []));
    }
  }
  return leads;
}
