import { outOfRange } from '../errors/out-of-range.js';
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
 * @param example - What to say is right where it is not.
 * @returns Where it is, mm.
 * @throws RangeError when it is no two lengths.
 */
export function parsePlace(text: string, name: string, example = 'a place such as 120,0'): Place {
  const [x, y, ...more] = text.split(',');
  if (x === undefined || y === undefined || more.length > 0) throw outOfRange(example, name, text);
  return { x: parseSigned(x.trim(), name), y: parseSigned(y.trim(), name) };
}

/** Which places are right. */
export interface PlacesWish {
  /** How many at least. */
  readonly least: number;
  /** What to say is right: `points such as "0,0 120,0"`. */
  readonly example: string;
}

/**
 * Take several places.
 *
 * @param text - As typed, blanks between them: `0,0 120,0`.
 * @param name - What they are for, as the user knows it.
 * @param wish - How many, and how to ask for them.
 * @returns Where each is, mm.
 * @throws RangeError when they are fewer, or one of them is no two lengths.
 */
export function parsePlaces(text: string, name: string, wish: PlacesWish): readonly Place[] {
  const parts = text.trim().split(/\s+/);
  if (parts.length < wish.least || parts.some((part) => part.split(',').length !== 2))
    throw outOfRange(wish.example, name, text);
  return parts.map((part) => parsePlace(part, name));
}
