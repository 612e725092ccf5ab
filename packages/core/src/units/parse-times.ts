import { outOfRange } from '../errors/out-of-range.js';
import type { Grid } from './parse-grid.js';

/**
 * Take how many times a picture is wanted.
 *
 * @param text - As typed: `4x3`, `1.5x1`.
 * @param name - What it is for, as the user knows it.
 * @returns Times across and down, 1 to 100 each.
 * @throws RangeError when it is anything else.
 */
export function parseTimes(text: string, name: string): Grid {
  const found = /^(\d{1,3}(?:\.\d{1,6})?)[x×](\d{1,3}(?:\.\d{1,6})?)$/i.exec(text);
  const [x = NaN, y = NaN] = (found ?? []).slice(1).map(Number);
  if (x >= 1 && y >= 1 && x <= 100 && y <= 100) return { x, y };
  throw outOfRange('times across and down, 1 to 100 each, such as 4x3', name, text);
}
