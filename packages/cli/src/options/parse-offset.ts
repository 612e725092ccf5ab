import type { Reading } from './option.js';

/**
 * Take a length of paper that may be nothing at all.
 *
 * @param text - As typed: `2mm`, `0`.
 * @param reading - Which option it is for, and the library for its grammar of lengths.
 * @returns Millimetres of paper, 0 or more.
 * @throws RangeError when it is no length.
 */
export function parseOffset(text: string, reading: Reading): number {
  return reading.core.parseOffset(text, reading.name);
}
