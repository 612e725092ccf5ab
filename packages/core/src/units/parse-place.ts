import { parsePrintLength } from './parse-length.js';

/** Millimetres right and down, of any sign. */
export interface Place {
  /** To the right. */
  readonly x: number;
  /** Down. */
  readonly y: number;
}

/**
 * Take a length that may be none.
 *
 * @param text - As typed: `0`, `2mm`.
 * @param name - What it is for, as the user knows it.
 * @returns Millimetres, 0 or more.
 * @throws RangeError when it is no length.
 */
export function parseOffset(text: string, name: string): number {
  return /^0(\.0+)? ?(mm|cm|m|in|ft)?$/.test(text) ? 0 : parsePrintLength(text, name);
}

/**
 * Take a length that may lie the other way.
 *
 * @param text - As typed: `-5`, `1.2m`.
 * @param name - What it is for, as the user knows it.
 * @returns Millimetres, of any sign.
 * @throws RangeError when it is no length.
 */
export function parseSigned(text: string, name: string): number {
  return text.startsWith('-') ? 0 - parseOffset(text.slice(1), name) : parseOffset(text, name);
}

/**
 * Take a place on a wall or a sheet of paper.
 *
 * @param text - As typed: `120,-5`, `1.2m,0`.
 * @param name - What it is for, as the user knows it.
 * @returns The place, or null where it is no two lengths.
 * @throws RangeError when one of the two is no length.
 */
export function parsePlace(text: string, name: string): Place | null {
  const [x, y, ...more] = text.split(',');
  if (x === undefined || y === undefined || more.length > 0) return null;
  return { x: parseSigned(x.trim(), name), y: parseSigned(y.trim(), name) };
}

/**
 * Take several places.
 *
 * @param text - As typed, blanks between them: `0,0 120,0`.
 * @param name - What they are for, as the user knows it.
 * @returns The places, or null where one is no two lengths.
 * @throws RangeError when one of them is no length.
 */
export function parsePlaces(text: string, name: string): readonly Place[] | null {
  const places = text
    .trim()
    .split(/\s+/)
    .map((part) => parsePlace(part, name));
  const known = places.filter((place) => place !== null);
  return known.length === places.length ? known : null;
}
