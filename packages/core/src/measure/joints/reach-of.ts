import type { Cells } from './fold-rows.js';
import type { Stretch } from './gather-stretch.js';

/**
 * Tell which samples of a stretch the photo shows in all of its cells.
 *
 * @param cells - The picture, folded.
 * @param stretch - Which part.
 * @returns First sample, and one past the last.
 */
export function reachOf(cells: Cells, stretch: Stretch): { from: number; to: number } {
  let first = 0;
  let last = Math.floor(cells.rows / stretch.step);
  for (let c = stretch.from; c < stretch.to; c++) {
    first = Math.max(first, Math.ceil(cells.from[c]! / stretch.step));
    last = Math.min(last, Math.floor(cells.to[c]! / stretch.step));
  }
  return { from: first, to: last };
}
