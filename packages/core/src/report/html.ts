// Nobody else can name it, so that no object from outside passes for markup.
const markup: unique symbol = Symbol('markup');

/** Markup that is safe to stand in a page: made by {@link html} alone. */
export interface Html {
  /** The markup. */
  readonly [markup]: string;
}

/** What may stand in a template: text is escaped, markup stands as it is, null is nothing. */
export type HtmlPart = string | number | Html | null | readonly HtmlPart[];

const entities = new Map([
  ['&', '&amp;'],
  ['<', '&lt;'],
  ['>', '&gt;'],
  ['"', '&quot;'],
  ["'", '&#39;'],
]);

// No page may hold them (HTML, 13.2.3.5), and a page in UTF-8 cannot hold half a letter.
const impossible = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f]|\p{Surrogate}/gu;

function write(part: HtmlPart): string {
  if (part === null) return '';
  if (typeof part === 'number') return String(part);
  if (typeof part === 'string') return escape(part);
  return isList(part) ? part.map(write).join('') : part[markup];
}

function isList(part: Html | readonly HtmlPart[]): part is readonly HtmlPart[] {
  return Array.isArray(part);
}

function escape(text: string): string {
  return text
    .replace(impossible, '\ufffd')
    .replace(/[&<>"']/g, (character) => entities.get(character) ?? '');
}

/**
 * Write markup. Whatever is put in is escaped, so that it may stand between tags and in an attribute in quotes;
 * nowhere else is anything to be put in.
 *
 * @param texts - Of the template.
 * @param parts - What is put in.
 * @returns The markup.
 */
export function html(texts: TemplateStringsArray, ...parts: readonly HtmlPart[]): Html {
  return { [markup]: texts.map((text, i) => text + write(parts[i] ?? null)).join('') };
}

/**
 * Take markup as text, to be written into a file.
 *
 * @param page - Made by {@link html}.
 * @returns Its text.
 */
export function toText(page: Html): string {
  return write(page);
}

/**
 * Take a constant of ours as markup as it is: a style sheet, whose quotes must stay what they are.
 *
 * @param text - Never anything from outside.
 * @returns It.
 */
export function constant(text: string): Html {
  return { [markup]: text };
}
