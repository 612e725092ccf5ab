import { attributesOf } from './attributes-of.js';
import {
  type Drawing,
  type DrawingAttribute,
  type DrawingElement,
  isSvg,
  namespaces,
} from './drawing.js';
import { undress } from './dress/undress.js';
import { listCssLinks } from './style/css-links.js';
import { basesOf, type LinkBase, resolveLink } from './xml-base.js';

/** A link that leads from a drawing to something else. */
export interface FileLink {
  /** The element that it is on. */
  readonly element: DrawingElement;
  /** Whether it stands in CSS. */
  readonly isCss: boolean;
  /** Where it leads from the drawing, whatever it counts from. */
  readonly value: string;
  /** What it counts from, or null for the drawing. */
  readonly base: LinkBase | null;
  /** Where it begins in the text. */
  readonly start: number;
  /** Past it. */
  readonly end: number;
}

/**
 * List what a drawing links to outside itself: by `href`, by `url(…)` in attributes and style sheets, and by
 * `@import`. Pictures in the drawing are none of them, nor is what an earlier dressing added.
 *
 * @param drawing - As read.
 * @returns In the order in which they stand; an element with both names of a link has two.
 */
export function listLinks(drawing: Drawing): FileLink[] {
  const gone = undress(drawing);
  const baseOf = basesOf(drawing);
  return linking(drawing).flatMap((element) => {
    if (gone.some(({ start, end }) => start <= element.start && element.start < end)) return [];
    const around = baseOf(element);
    return [...linksOn(drawing, element), ...linksIn(drawing, element)]
      .filter(({ value }) => !/^\s*(?:$|#|data:)/i.test(value))
      .map((link) => {
        const value = resolveLink(link.value, around);
        return { ...link, element, value, base: value === link.value ? null : around };
      });
  });
}

/**
 * Whether a link holds from where a drawing lies and from nowhere else.
 *
 * @param link - Of it.
 * @returns No for addresses and paths from the root.
 * @see RFC 3986, 4.2: relative reference
 */
export function isRelative(link: Pick<FileLink, 'value'>): boolean {
  return !/^\s*(?:[?/\\]|[a-z][a-z0-9+.-]*:)/i.test(link.value);
}

// Few elements hold a link, and only those are looked into.
function linking({ text, elements, sheets }: Drawing): DrawingElement[] {
  const found = new Set(sheets.keys());
  let at = 0;
  for (const { index } of text.matchAll(/href|[Uu][Rr][Ll]\(/g)) {
    while ((elements[at + 1]?.start ?? Infinity) <= index) at++;
    found.add(at);
  }
  return [...found].sort((a, b) => a - b).flatMap((one) => elements[one] ?? []);
}

type PlainLink = Omit<FileLink, 'element' | 'base'>;

// What may be painted, cut or marked by something in another file.
const painting =
  /^(?:style|fill|stroke|clip-path|mask|filter|cursor|marker|marker-(?:start|mid|end))$/;

function linksOn(drawing: Drawing, element: DrawingElement): PlainLink[] {
  return attributesOf(drawing, element).flatMap((attribute): PlainLink[] => {
    const { name, namespace, raw, valueStart, valueEnd } = attribute;
    if (isLink(element, attribute)) {
      // Its meaning would take as much memory again.
      if (raw.startsWith('data:')) return [];
      return [{ isCss: false, value: attribute.value, start: valueStart, end: valueEnd }];
    }
    return namespace === null && painting.test(name) ? inCss(raw, valueStart) : [];
  });
}

function isLink(element: DrawingElement, { name, namespace }: DrawingAttribute): boolean {
  return isSvg(element, element.name) && name === 'href' && (namespace ?? '') in linkSpaces;
}

const linkSpaces = { '': true, [namespaces.xlink]: true };

function linksIn({ text, sheets }: Drawing, element: DrawingElement): PlainLink[] {
  if (!sheets.has(element.index)) return [];
  return inCss(text.slice(element.contentStart, element.contentEnd), element.contentStart);
}

function inCss(raw: string, from: number): PlainLink[] {
  return listCssLinks(raw).map(({ value, start, end }) => ({
    isCss: true,
    value,
    start: from + start,
    end: from + end,
  }));
}
