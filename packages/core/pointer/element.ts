/**
 * Take an element of the page.
 *
 * @param id - As it stands in the page.
 * @param kind - What it is.
 * @returns It, of that kind.
 * @throws Error when there is none: page and script are not of one build.
 */
export function element<Kind extends Element>(id: string, kind: new () => Kind): Kind {
  const found = document.getElementById(id);
  if (found instanceof kind) return found;
  throw new Error(`the page has no ${kind.name} called ${id}`);
}

/**
 * Make an element of a page.
 *
 * @param tag - What it is.
 * @param attributes - Its attributes.
 * @param text - What it says.
 * @returns The element, in no place yet.
 */
export function make<Tag extends keyof HTMLElementTagNameMap>(
  tag: Tag,
  attributes: Readonly<Record<string, string>> = {},
  text = '',
): HTMLElementTagNameMap[Tag] {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, value);
  made.textContent = text;
  return made;
}

/**
 * Make an element of a drawing.
 *
 * @param tag - What it is.
 * @param attributes - Its attributes.
 * @param text - What it says.
 * @returns The element, in no place yet.
 */
export function draw(
  tag: 'path' | 'text',
  attributes: Readonly<Record<string, string | number>>,
  text = '',
): SVGElement {
  const made = document.createElementNS('http://www.w3.org/2000/svg', tag);
  for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, String(value));
  made.textContent = text;
  return made;
}
