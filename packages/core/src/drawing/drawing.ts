/** The namespaces that matter here. */
export const namespaces = {
  svg: 'http://www.w3.org/2000/svg',
  xlink: 'http://www.w3.org/1999/xlink',
  xml: 'http://www.w3.org/XML/1998/namespace',
  xmlns: 'http://www.w3.org/2000/xmlns/',
} as const;

/** Prefixes and their namespaces, as declared on an element and around it. */
export interface Scope {
  /** Around it, or null for the outermost. */
  readonly outer: Scope | null;
  /** Declared here; the empty prefix is that of names without one. */
  readonly own: ReadonlyMap<string, string>;
}

/** One element of a drawing, and where it stands in the text. */
export interface DrawingElement {
  /** Its place in document order, 0 for the root. */
  readonly index: number;
  /** Around it, or null for the root. */
  readonly parent: DrawingElement | null;
  /** Index of the last element inside it; its own where there is none. */
  readonly last: number;
  /** Before the colon of its name, or empty. */
  readonly prefix: string;
  /** After the colon. */
  readonly name: string;
  /** What its prefix stands for, or null for none. */
  readonly namespace: string | null;
  /** Its `id`, or null. */
  readonly id: string | null;
  /** Prefixes that hold on it. */
  readonly scope: Scope;
  /** Of its `<`. */
  readonly start: number;
  /** Past the `>` of its start tag. */
  readonly contentStart: number;
  /** Of the `<` of its end tag; `contentStart` where it has none. */
  readonly contentEnd: number;
  /** Past its last `>`. */
  readonly end: number;
  /** Whether it is a single tag, `<image/>`. */
  readonly selfClosing: boolean;
}

/** One attribute, and where it stands in the text. */
export interface DrawingAttribute {
  /** As written, with its prefix. */
  readonly qualified: string;
  /** After the colon. */
  readonly name: string;
  /** What its prefix stands for; null without one. */
  readonly namespace: string | null;
  /** As written between its quotes. */
  readonly raw: string;
  /** As meant: references resolved, line breaks made blanks. */
  readonly value: string;
  /** Of its name. */
  readonly start: number;
  /** Of its value, past the quote. */
  readonly valueStart: number;
  /** Past its value, at the quote. */
  readonly valueEnd: number;
  /** Past the quote. */
  readonly end: number;
}

/** A drawing, read. */
export interface Drawing {
  /** All of it, without a byte-order mark. */
  readonly text: string;
  /** In document order; the root is first. */
  readonly elements: readonly DrawingElement[];
  /** The first of them. */
  readonly root: DrawingElement;
  /** The first element of each id. */
  readonly byId: ReadonlyMap<string, DrawingElement>;
  /** What stands in its `style` elements, by the element's index. */
  readonly sheets: ReadonlyMap<number, string>;
  /** Targets of its processing instructions: `xml-stylesheet`. */
  readonly instructions: readonly string[];
  /** Whether a script may change it: one stands in it, or an attribute that runs one. */
  readonly scripted: boolean;
  /** Whether links count from elsewhere somewhere in it: an `xml:base` is set. */
  readonly rebased: boolean;
}

/**
 * Whether an element is SVG's and of a name.
 *
 * @param element - Any.
 * @param names - Without a prefix.
 * @returns Yes where it is one of them.
 */
export function isSvg(element: DrawingElement, ...names: readonly string[]): boolean {
  return element.namespace === namespaces.svg && names.includes(element.name);
}

/**
 * Walk the elements right inside another.
 *
 * @param drawing - Which both are of.
 * @param element - Around them.
 * @yields Them, in document order.
 */
export function* childrenOf(drawing: Drawing, element: DrawingElement): Generator<DrawingElement> {
  for (let at = element.index + 1; at <= element.last;) {
    const child = drawing.elements[at];
    if (child === undefined) return;
    yield child;
    at = child.last + 1;
  }
}

/**
 * What a prefix stands for.
 *
 * @param scope - Where it is used.
 * @param prefix - Or empty.
 * @returns The namespace, or undefined where none was declared.
 */
export function namespaceOf(scope: Scope, prefix: string): string | undefined {
  if (prefix === 'xml') return namespaces.xml;
  for (let at: Scope | null = scope; at !== null; at = at.outer) {
    const found = at.own.get(prefix);
    if (found !== undefined) return found;
  }
  return undefined;
}
