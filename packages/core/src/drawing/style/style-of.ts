import { attributeOf } from '../attributes-of.js';
import type { DrawingAttribute, DrawingElement } from '../drawing.js';
import { type Declared, isPlacing } from './declarations.js';
import { declaredIn, parseCss } from './parse-css.js';
import type { PlainSelector, Sheets } from './read-sheets.js';

/** What places an element beside its own attributes of geometry: property by name to value. */
export type PlacingStyle = ReadonlyMap<string, string>;

/** Attributes that a style sheet may set as well. */
const presentation = ['clip-path', 'mask', 'filter', 'overflow', 'image-rendering'] as const;

// Without a style sheet's say: these stand for themselves as attributes.
const attributesToo = new Set<string>(presentation);

function matches(
  { name, ids, classes }: PlainSelector,
  element: DrawingElement,
  held: ReadonlySet<string>,
): boolean {
  if (name !== null && name !== element.name) return false;
  return ids.every((id) => id === element.id) && classes.every((one) => held.has(one));
}

/**
 * What places an element beside its attributes of geometry: cascade of attributes, style sheets and
 * its own `style`.
 *
 * @param element - Of a drawing.
 * @param attributes - Its own.
 * @param sheets - The drawing's.
 * @returns Properties that are set, and to what.
 */
export function styleOf(
  element: DrawingElement,
  attributes: readonly DrawingAttribute[],
  sheets: Sheets,
): PlacingStyle {
  return cascade({ element, attributes }, sheets, placing);
}

// Of most elements; a map of its own for each takes much room.
const unset: PlacingStyle = new Map();

/** An element with what is stated on it. */
export interface AttributedElement {
  /** Of a drawing. */
  readonly element: DrawingElement;
  /** Its own. */
  readonly attributes: readonly DrawingAttribute[];
}

/** Properties that are looked for. */
export interface WantedProperties {
  /** Those that may stand as attributes. */
  readonly attributes: readonly string[];
  /** Whether a style may set one, by its name in lower case. */
  readonly isWanted: (name: string) => boolean;
}

const placing: WantedProperties = {
  attributes: [...presentation, 'transform-origin'],
  isWanted: isPlacing,
};

/**
 * What is set on an element itself: attributes, style sheets and its own `style`.
 *
 * @param styled - The element, and its own attributes.
 * @param sheets - The drawing's, read for the same properties.
 * @param wanted - Which properties.
 * @returns Properties that are set, and to what.
 * @see CSS Cascading and Inheritance Level 3, 6; SVG 2, 6.6: presentation attributes
 */
export function cascade(
  styled: AttributedElement,
  sheets: Sheets,
  wanted: WantedProperties,
): ReadonlyMap<string, string> {
  const { element, attributes } = styled;
  const set = new Map<string, Declared>();
  const put = (name: string, declared: Declared): void => {
    if (set.get(name)?.important === true && !declared.important) return;
    set.set(name, declared);
  };
  for (const name of wanted.attributes) {
    const value = attributeOf(attributes, name)?.value.trim();
    if (value !== undefined) put(name, { value, important: false });
  }
  if (sheets.rules.length > 0) {
    const held = new Set(attributeOf(attributes, 'class')?.value.split(/\s+/));
    for (const { selector, declarations } of sheets.rules) {
      if (matches(selector, element, held))
        declarations.forEach((one, name) => {
          put(name, one);
        });
    }
  }
  const own = attributeOf(attributes, 'style')?.value;
  const tree = own === undefined ? null : parseCss(own, 'declarationList');
  if (tree?.type === 'DeclarationList') {
    declaredIn(tree, wanted.isWanted).forEach((one, name) => {
      put(name, one);
    });
  }
  return valuesOf(set);
}

function valuesOf(set: ReadonlyMap<string, Declared>): PlacingStyle {
  return set.size === 0 ? unset : new Map([...set].map(([name, { value }]) => [name, value]));
}

/**
 * The first property that sets geometry where only attributes should: drawing programs differ on it.
 *
 * @param style - Of an element.
 * @returns Its name, or undefined.
 */
export function geometryIn(style: PlacingStyle): string | undefined {
  return [...style.keys()].find((name) => !attributesToo.has(name));
}

/**
 * What a property points to inside the drawing.
 *
 * @param value - Such as `url(#frame)` or `none`; undefined where it is not set.
 * @returns The id; null where it points nowhere; `unknown` where it is something else.
 */
export function referenceIn(value: string | undefined): { readonly id: string } | null | 'unknown' {
  if (value === undefined || value === '' || value === 'none') return null;
  const match = /^url\(\s*(["']?)#([^"')\s]*)\1\s*\)/.exec(value);
  return match?.[2] === undefined ? 'unknown' : { id: match[2] };
}
