import { parsePercent } from '../../units/parse-number.js';

/**
 * Take how much larger than it should be a dot prints.
 *
 * @param text - Of half the paper: `18%`.
 * @param name - What it is for, as the user knows it.
 * @returns 0 to 0.24.
 * @throws RangeError when it is anything else.
 */
export function parseDotGain(text: string, name = 'dot gain'): number {
  return parsePercent(text, name, { least: 0, most: 24 });
}

/**
 * Take how much ink a paper bears.
 *
 * @param text - All three inks together being 300 %: `240%`.
 * @param name - What it is for, as the user knows it.
 * @returns 1 to 3.
 * @throws RangeError when it is anything else.
 */
export function parseInkLimit(text: string, name = 'ink limit'): number {
  return parsePercent(text, name, { least: 100, most: 300 });
}
