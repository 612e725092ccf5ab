import { parseCssColour } from '../../colour/css-colour.js';
import type { DrawnLine, Ink } from '../../page/drawn.js';
import { isHidden } from '../style/is-hidden.js';
import { farthest } from './farthest.js';
import { toUnits } from '../geometry/parse-length.js';
import type { ShapeToFollow } from '../outline/follow-shape.js';

/** Properties of what is painted that are handed on from outside in. */
export interface Paint {
  /** By name. */
  readonly set: ReadonlyMap<string, string>;
  /** What `currentColor` is, as it is written. */
  readonly colour: string;
  /** Whether nothing of it is seen. */
  readonly isHidden: boolean;
}

const inherited = [
  'fill',
  'fill-opacity',
  'fill-rule',
  'clip-rule',
  'stroke',
  'stroke-opacity',
  'stroke-width',
  'stroke-linecap',
  'stroke-linejoin',
  'stroke-miterlimit',
  'stroke-dasharray',
  'stroke-dashoffset',
  'paint-order',
  'marker',
  'marker-start',
  'marker-mid',
  'marker-end',
];
const own = [
  'display',
  'visibility',
  'color',
  'opacity',
  'mask',
  'filter',
  'mix-blend-mode',
  'vector-effect',
];
const all = new Set([...inherited, ...own]);

/** What is looked for in attributes and styles. */
export const painting: {
  readonly attributes: readonly string[];
  readonly isWanted: (name: string) => boolean;
} = { attributes: [...all], isWanted: (name) => all.has(name) };

/** What holds where nothing is said. */
export const unpainted: Paint = { set: new Map(), colour: '#000000', isHidden: false };

/**
 * Go into an element.
 *
 * @param style - What is set on it.
 * @param outer - As handed on to it.
 * @returns As it hands on; undefined where nothing in it shows.
 */
export function carryPaint(style: ReadonlyMap<string, string>, outer: Paint): Paint | undefined {
  if (style.get('display')?.trim() === 'none') return undefined;
  const set = new Map(outer.set);
  for (const name of inherited) {
    const value = style.get(name)?.trim();
    if (value !== undefined && !/^(inherit|unset|revert|)$/.test(value)) set.set(name, value);
  }
  const colour = style.get('color')?.trim().toLowerCase() ?? '';
  const isOuter = /^(inherit|unset|revert|revert-layer|currentcolor|)$/.test(colour);
  return {
    set,
    colour: isOuter ? outer.colour : colour === 'initial' ? unpainted.colour : colour,
    isHidden: isHidden(style.get('visibility'), outer.isHidden),
  };
}

// By what they are without.
const harmless: ReadonlyMap<string, RegExp> = new Map([
  ['opacity', /^(1|1\.0*|100%)$/],
  ['mask', /^none$/],
  ['filter', /^none$/],
  ['mix-blend-mode', /^normal$/],
  ['vector-effect', /^none$/],
  ['marker', /^none$/],
  ['marker-start', /^none$/],
  ['marker-mid', /^none$/],
  ['marker-end', /^none$/],
]);

/**
 * Tell what is set on an element that a page is not drawn with.
 *
 * @param style - What is set on it.
 * @returns The property and its value, or null.
 */
export function oddIn(style: ReadonlyMap<string, string>): string | null {
  for (const [name, value] of style) {
    const plain = harmless.get(name);
    if (plain !== undefined && !plain.test(value.trim())) return `${name}: ${value.slice(0, 40)}`;
  }
  return null;
}

/** Thrown by what a page is not drawn with; its words follow an element's name. */
export class OddPaint extends Error {}

/**
 * Read what fills a shape.
 *
 * @param paint - As it stands.
 * @param name - Its fill, or its line.
 * @returns It, or null for none.
 * @throws OddPaint where it is no flat colour.
 */
export function inkOf(paint: Paint, name: 'fill' | 'stroke'): Ink | null {
  const { set, colour } = paint;
  const stated = (set.get(name) ?? (name === 'fill' ? '#000000' : 'none')).toLowerCase();
  // As clear, and as unknown, as a fill of that colour itself.
  const text = stated === 'currentcolor' ? colour : stated;
  const opacity = shareIn(set.get(`${name}-opacity`) ?? '1', `${name}-opacity`);
  if (text === 'none' || text === 'transparent' || opacity === 0) return null;
  const isClear = /^#([0-9a-f]{4}|[0-9a-f]{8})$|^(rgb|hsl|hwb)a?\(.*(\/|(,.*){3})/.test(text);
  const flat = parseCssColour(text);
  if (isClear || flat === null) throw new OddPaint(`has a ${name} of ${text.slice(0, 40)}`);
  return { colour: flat, opacity };
}

function shareIn(text: string, name: string): number {
  const [, digits = '', unit = ''] = /^([\d.]+(?:e-?\d+)?)(%?)$/.exec(text.trim()) ?? [];
  const share = Number(digits === '' ? 'none' : digits) / (unit === '' ? 1 : 100);
  if (!Number.isFinite(share)) throw new OddPaint(`has a ${name} of ${text.slice(0, 40)}`);
  return Math.min(1, Math.max(0, share));
}

/**
 * Read a shape's line.
 *
 * @param paint - As it stands.
 * @param viewport - What shares of lengths are shares of.
 * @returns It, or null for none.
 * @throws OddPaint where it is none that pages have.
 */
export function lineOf(paint: Paint, viewport: ShapeToFollow['viewport']): DrawnLine | null {
  const ink = inkOf(paint, 'stroke');
  const { set } = paint;
  const { width: across, height: down } = viewport;
  const whole = Math.hypot(across, down) / Math.SQRT2;
  const read = (name: string, text: string): number => {
    const value = toUnits(text, whole, 0);
    if (value === null || !(Math.abs(value) <= farthest))
      throw new OddPaint(`has a ${name} of ${text.slice(0, 40)}`);
    return value;
  };
  const length = (name: string, unstated: string): number => read(name, set.get(name) ?? unstated);
  const width = ink === null ? 0 : length('stroke-width', '1');
  if (width < 0) throw new OddPaint(`has a stroke-width of ${width}`);
  if (ink === null || !(width > 0)) return null;
  const dashes = set.get('stroke-dasharray') ?? 'none';
  const lengths =
    dashes === 'none' ? [] : dashes.split(/[\s,]+/).map((text) => read('stroke-dasharray', text));
  return {
    ...ink,
    width,
    cap: wordOf(set, 'stroke-linecap', ['butt', 'round', 'square']),
    join: wordOf(set, 'stroke-linejoin', ['miter', 'round', 'bevel']),
    miterLimit: Math.max(1, length('stroke-miterlimit', '4')),
    // SVG 2, 13.5.6: of none but noughts, or of less than nothing, there are no dashes.
    dashes: lengths.some((dash) => dash < 0) || !lengths.some((dash) => dash > 0) ? [] : lengths,
    dashOffset: length('stroke-dashoffset', '0'),
  };
}

function wordOf<Word extends string>(
  set: ReadonlyMap<string, string>,
  name: string,
  words: readonly [Word, ...Word[]],
): Word {
  const text = set.get(name) ?? words[0];
  const word = words.find((one) => one === text);
  if (word === undefined) throw new OddPaint(`has a ${name} of ${text.slice(0, 40)}`);
  return word;
}
