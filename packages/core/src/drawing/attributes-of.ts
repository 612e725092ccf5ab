import {
  type Drawing,
  type DrawingAttribute,
  type DrawingElement,
  namespaceOf,
  namespaces,
} from './drawing.js';

const five = new Map([
  ['amp', '&'],
  ['lt', '<'],
  ['gt', '>'],
  ['quot', '"'],
  ['apos', "'"],
]);

/**
 * What a reference means that the reader let pass: one of XML's five, or the number of a character.
 *
 * @param whole - Such as `&quot;`.
 * @param name - The same without its `&` and `;`.
 * @returns The character.
 * @see XML 1.0, fifth edition, 4.1
 */
export function resolveReference(whole: string, name: string): string {
  if (!name.startsWith('#')) return five.get(name) ?? whole;
  const code = name[1] === 'x' ? parseInt(name.slice(2), 16) : parseInt(name.slice(1), 10);
  return String.fromCodePoint(code);
}

/**
 * What an attribute's text means.
 *
 * @param raw - As written between its quotes.
 * @returns With references resolved and line breaks made blanks.
 * @see XML 1.0, fifth edition, 3.3.3
 */
function meaningOf(raw: string): string {
  if (!/[&\t\n\r]/.test(raw)) return raw;
  return raw.replace(/\r\n|[\t\n\r]/g, ' ').replace(/&([^&;]*);/g, resolveReference);
}

/**
 * List an element's attributes. They are found in the text again each time: of a drawing with
 * hundreds of thousands of elements few are ever asked for.
 *
 * @param drawing - Read, and so known to be well-formed.
 * @param element - Of it.
 * @returns In the order in which they stand.
 */
export function attributesOf(drawing: Drawing, element: DrawingElement): DrawingAttribute[] {
  const { text } = drawing;
  const found: DrawingAttribute[] = [];
  const pattern = /\s+([^\s=]+)\s*=\s*(["'])/y;
  const colon = element.prefix === '' ? 0 : element.prefix.length + 1;
  pattern.lastIndex = element.start + 1 + colon + element.name.length;
  for (let match = pattern.exec(text); match !== null; match = pattern.exec(text)) {
    const [whole, qualified = '', quote = '"'] = match;
    const start = match.index + whole.search(/\S/);
    const valueStart = match.index + whole.length;
    const valueEnd = text.indexOf(quote, valueStart);
    pattern.lastIndex = valueEnd + 1;
    const at = qualified.indexOf(':');
    const raw = text.slice(valueStart, valueEnd);
    found.push({
      qualified,
      name: qualified.slice(at + 1),
      namespace: namespaceFor(element, qualified, at),
      raw,
      get value() {
        return meaningOf(raw);
      },
      start,
      valueStart,
      valueEnd,
      end: valueEnd + 1,
    });
  }
  return found;
}

function namespaceFor(element: DrawingElement, qualified: string, colon: number): string | null {
  if (qualified === 'xmlns') return namespaces.xmlns;
  if (colon === -1) return null;
  const prefix = qualified.slice(0, colon);
  return prefix === 'xmlns' ? namespaces.xmlns : (namespaceOf(element.scope, prefix) ?? null);
}

/**
 * Look up an attribute that has no prefix.
 *
 * @param attributes - As listed.
 * @param name - Such as `viewBox`.
 * @returns It, or undefined.
 */
export function attributeOf(
  attributes: readonly DrawingAttribute[],
  name: string,
): DrawingAttribute | undefined {
  return attributes.find((one) => one.namespace === null && one.name === name);
}

/**
 * What an element points to, the way SVG 2 has it: `href` before `xlink:href`.
 *
 * @param attributes - As listed.
 * @returns The attribute, or undefined.
 * @see Scalable Vector Graphics (SVG) 2, 16.1.6
 */
export function hrefOf(attributes: readonly DrawingAttribute[]): DrawingAttribute | undefined {
  return (
    attributeOf(attributes, 'href') ??
    attributes.find((one) => one.namespace === namespaces.xlink && one.name === 'href')
  );
}

/**
 * What an element points to inside the drawing.
 *
 * @param drawing - Which it is of.
 * @param attributes - Of the element, as listed.
 * @returns The element pointed to, or undefined where it points elsewhere or nowhere.
 */
export function targetOf(
  drawing: Drawing,
  attributes: readonly DrawingAttribute[],
): DrawingElement | undefined {
  const href = hrefOf(attributes)?.value.trim();
  if (href?.startsWith('#') !== true) return undefined;
  return drawing.byId.get(decodeSafely(href.slice(1)));
}

function decodeSafely(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}
