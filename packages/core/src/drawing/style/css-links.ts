import { string, tokenize, tokenTypes, url } from 'css-tree';
import { resolveReference } from '../attributes-of.js';

/** A link in CSS that stands in a drawing. */
export interface CssLink {
  /** As meant. */
  readonly value: string;
  /** Where it begins in what was read, without quotes. */
  readonly start: number;
  /** Past it. */
  readonly end: number;
}

/**
 * List what CSS links to: `url(…)`, and what `@import` names.
 *
 * @param raw - Content of a `style` element, or an attribute's value, as it stands in the drawing.
 * @returns In the order in which they stand.
 * @see CSS Syntax Level 3, 4.3.6: url tokens; CSS Cascading and Inheritance Level 3, 2
 */
export function listCssLinks(raw: string): CssLink[] {
  const { text, placeOf } = meantBy(raw);
  const links: CssLink[] = [];
  const add = (value: string, from: number, to: number): void => {
    links.push({ value, start: placeOf(from), end: placeOf(to) });
  };
  // Whether a string would be a link where the next token stands.
  let isNamed = false;
  tokenize(text, (type, start, end) => {
    const token = text.slice(start, end);
    if (type === tokenTypes.Url && token.endsWith(')')) add(url.decode(token), start + 4, end - 1);
    if (type === tokenTypes.String && isNamed && token.length > 1 && token.endsWith(token[0] ?? ''))
      add(string.decode(token), start + 1, end - 1);
    if (type === tokenTypes.WhiteSpace || type === tokenTypes.Comment) return;
    isNamed = /^(?:url\(|@import)$/i.test(token);
  });
  return links;
}

/**
 * Word a link so that it holds in CSS, between quotes of any kind or none, in any part of a drawing.
 *
 * @param link - A relative reference or an address.
 * @returns The same, with what means something to CSS or XML in hundreds.
 */
export function escapeCssLink(link: string): string {
  return link.replace(/["'()\\<>&\s]/g, (one) =>
    [...new TextEncoder().encode(one)]
      .map((byte) => `%${byte.toString(16).toUpperCase().padStart(2, '0')}`)
      .join(''),
  );
}

interface Meant {
  readonly text: string;
  // Where a place of it stands in what was read.
  readonly placeOf: (at: number) => number;
}

// XML's comments and instructions are no part of a text; CDATA is, as it stands; references stand for others.
function meantBy(raw: string): Meant {
  const pieces: { readonly at: number; readonly start: number }[] = [{ at: 0, start: 0 }];
  let [text, last] = ['', 0];
  const marks = /<!--[^]*?-->|<\?[^]*?\?>|<!\[CDATA\[([^]*?)\]\]>|&([^&;]*);/g;
  for (const match of raw.matchAll(marks)) {
    const [whole, cdata, name] = match;
    const end = match.index + whole.length;
    text += raw.slice(last, match.index);
    if (cdata !== undefined) {
      pieces.push({ at: text.length, start: match.index + '<![CDATA['.length });
      text += cdata;
    } else if (name !== undefined) {
      pieces.push({ at: text.length, start: match.index });
      text += resolveReference(whole, name);
    }
    pieces.push({ at: text.length, start: end });
    last = end;
  }
  text += raw.slice(last);
  const placeOf = (at: number): number => {
    const piece = pieces.findLast((one) => one.at <= at) ?? { at: 0, start: 0 };
    return piece.start + at - piece.at;
  };
  return { text, placeOf };
}
