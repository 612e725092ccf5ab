import type { Core, Reading } from './option.js';

/** Millimetres right and down, of any sign. */
export type Place = NonNullable<ReturnType<Core['parsePlace']>>;

/**
 * Take a place on a wall or a sheet of paper.
 *
 * @param text - As typed: `120,-5`, `1.2m,0`.
 * @param reading - Which option it is for, and the library for its grammar of lengths.
 * @returns The place, or null where it is no two lengths.
 * @throws RangeError when one of the two is no length.
 */
export function parsePlace(text: string, reading: Reading): Place | null {
  return reading.core.parsePlace(text, reading.name);
}

/**
 * Take a length that may lie the other way.
 *
 * @param text - As typed: `-5`, `1.2m`.
 * @param reading - Which option it is for, and the library for its grammar of lengths.
 * @returns Millimetres, of any sign.
 * @throws RangeError when it is no length.
 */
export function parseSigned(text: string, reading: Reading): number {
  return reading.core.parseSigned(text, reading.name);
}

/**
 * Take several places.
 *
 * @param text - As typed, blanks between them: `0,0 120,0`.
 * @param reading - Which option it is for, and the library for its grammar of lengths.
 * @returns The places, or null where one is no two lengths.
 * @throws RangeError when one of them is no length.
 */
export function parsePlaces(text: string, reading: Reading): readonly Place[] | null {
  return reading.core.parsePlaces(text, reading.name);
}
