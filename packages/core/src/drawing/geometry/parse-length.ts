/** Pixels of CSS to each unit that has a size of its own. */
const units: ReadonlyMap<string, number> = new Map([
  ['', 1],
  ['px', 1],
  ['mm', 96 / 25.4],
  ['cm', 96 / 2.54],
  ['q', 96 / 101.6],
  ['in', 96],
  ['pt', 96 / 72],
  ['pc', 16],
]);

/** A length as a drawing states it. */
export interface DrawingLength {
  /** In px of CSS, 96 to the inch; for `%` a share of what it is measured by. */
  readonly value: number;
  /** `px` where no unit stands or px does, `%`, or `true` for a unit that paper has. */
  readonly kind: 'px' | '%' | 'true';
}

/**
 * Read a length of a drawing.
 *
 * @param text - Such as `80mm`, `40`, `50%`.
 * @returns The length, or null where it is none, or of a unit that has no size of its own.
 * @see CSS Values and Units Module Level 3, 6.2: absolute lengths
 */
export function parseLength(text: string): DrawingLength | null {
  const match = /^\s*([+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:e[+-]?\d+)?)([a-z]*|%)\s*$/i.exec(text);
  if (match === null) return null;
  const [, digits = '', unit = ''] = match;
  const size = units.get(unit.toLowerCase());
  const value = unit === '%' ? Number(digits) / 100 : Number(digits) * (size ?? NaN);
  if (!Number.isFinite(value)) return null;
  if (unit === '%') return { value, kind: '%' };
  return { value, kind: /^(px)?$/i.test(unit) ? 'px' : 'true' };
}

/**
 * A length in user units.
 *
 * @param text - As stated, or undefined where it is not.
 * @param whole - What a share of it is a share of.
 * @param unstated - What holds where nothing is stated.
 * @returns The length, or null where what is stated has no size.
 */
export function toUnits(text: string | undefined, whole: number, unstated: number): number | null {
  if (text === undefined) return unstated;
  const length = parseLength(text);
  if (length === null) return null;
  const value = length.kind === '%' ? length.value * whole : length.value;
  return Number.isFinite(value) ? value : null;
}
