import { notExpected } from './not-expected.js';

/**
 * Take a strength.
 *
 * @param text - What was typed.
 * @param name - The option, as the user knows it.
 * @returns 0 to 1.
 * @throws RangeError when it is anything else.
 */
export function parseShare(text: string, name: string): number {
  const value = /^(?:\d{1,3}(?:\.\d{0,9})?|\.\d{1,9})$/.test(text) ? Number(text) : NaN;
  if (!(value <= 1)) throw notExpected('a number from 0 to 1', name, text);
  return value;
}
