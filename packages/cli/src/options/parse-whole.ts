import type { Reading } from './option.js';

/**
 * Take a count.
 *
 * @param text - As typed.
 * @param reading - Which option it is for.
 * @param most - The largest that makes sense.
 * @returns A whole number from 1 on.
 * @throws RangeError when it is anything else.
 */
export function parseWhole(text: string, reading: Reading, most: number): number {
  return reading.core.parseWhole(text, reading.name, { most });
}
