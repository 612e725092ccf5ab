import {
  type Drawing,
  type DrawingAttribute,
  type DrawingElement,
  namespaceOf,
  namespaces,
  type Scope,
} from './drawing.js';
import type { Edit } from './edit-text.js';
import type { Matrix } from '../numeric/matrix.js';

/**
 * Write a number: ten digits at most, and no noughts that do not count.
 *
 * @param value - Finite.
 * @returns It, as drawings have it.
 */
export function showNumber(value: number): string {
  return String(Number(value.toPrecision(10)));
}

/**
 * Write a transform.
 *
 * @param matrix - Finite.
 * @returns It, as an attribute has it.
 */
export function showMatrix(matrix: Matrix): string {
  return `matrix(${matrix.map(showNumber).join(' ')})`;
}

/**
 * Make a text fit to stand between quotes, of either kind.
 *
 * @param text - Any.
 * @returns With references in place of what means something else there.
 */
export function escapeText(text: string): string {
  return text
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('"', '&quot;')
    .replaceAll("'", '&apos;');
}

/**
 * Where the name of an element's start tag ends.
 *
 * @param element - Of a drawing.
 * @returns Past its last character.
 */
export function tagNameEnd(element: DrawingElement): number {
  const colon = element.prefix === '' ? 0 : element.prefix.length + 1;
  return element.start + 1 + colon + element.name.length;
}

/**
 * Take an attribute out, with the blanks before it.
 *
 * @param drawing - Which it is of.
 * @param attribute - To go.
 * @returns The edit.
 */
export function removal(drawing: Drawing, attribute: DrawingAttribute): Edit {
  let { start } = attribute;
  while (/\s/.test(drawing.text[start - 1] ?? '')) start--;
  return { start, end: attribute.end, text: '' };
}

/**
 * How a link is named where some prefixes hold: by its older name, which every program knows.
 *
 * @param scope - Where it is to stand.
 * @returns Its name, after a declaration where there is none.
 */
export function linkNameAt(scope: Scope): string {
  for (let at: Scope | null = scope; at !== null; at = at.outer) {
    for (const [prefix, space] of at.own) {
      const holds = namespaceOf(scope, prefix) === namespaces.xlink;
      if (space === namespaces.xlink && prefix !== '' && holds) return `${prefix}:href`;
    }
  }
  return `xmlns:xlink="${namespaces.xlink}" xlink:href`;
}

/**
 * How an element of SVG's begins where some prefixes hold.
 *
 * @param scope - Where it is to stand.
 * @returns The prefix with its colon, or nothing.
 */
export function svgPrefixAt(scope: Scope): string {
  if (namespaceOf(scope, '') === namespaces.svg) return '';
  for (let at: Scope | null = scope; at !== null; at = at.outer) {
    for (const prefix of at.own.keys()) {
      if (namespaceOf(scope, prefix) === namespaces.svg) return `${prefix}:`;
    }
  }
  return '';
}

/**
 * Give out ids that are still free.
 *
 * @param drawing - Whose ids are not.
 * @returns Called with what an id is to begin with, gives that and a number, another each time.
 */
export function freshIds(drawing: Drawing): (stem: string) => string {
  const last = new Map<string, number>();
  return (stem) => {
    let n = (last.get(stem) ?? 0) + 1;
    while (drawing.byId.has(`${stem}-${n}`)) n++;
    last.set(stem, n);
    return `${stem}-${n}`;
  };
}
