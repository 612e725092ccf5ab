import { outOfRange } from '../errors/out-of-range.js';

/** How many side by side, and one above the other. */
export interface Grid {
  /** Columns. */
  readonly x: number;
  /** Rows. */
  readonly y: number;
}

/**
 * Take columns and rows.
 *
 * @param text - As typed: `2x3`.
 * @param name - What they are for, as the user knows it.
 * @returns Both, 0 or more; what makes sense is for the caller to say.
 * @throws RangeError when it is anything else.
 */
export function parseGrid(text: string, name: string): Grid {
  const [, x, y] = /^\s*(\d{1,3})\s*[x×]\s*(\d{1,3})\s*$/i.exec(text) ?? [];
  if (x === undefined || y === undefined)
    throw outOfRange('columns and rows such as 2x3', name, text);
  return { x: Number(x), y: Number(y) };
}
