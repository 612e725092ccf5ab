import { outOfRange } from '../errors/out-of-range.js';

/** How a cut may run. */
export interface CutOptions {
  /** Whether it must end in the column it began in, so that the cut itself repeats. */
  readonly closed?: boolean;
}

// Below this many cells times columns a closed cut is found exactly, by trying every column.
const exactWork = 40_000_000;

/**
 * Find the cheapest cut from the top of a table of costs to its bottom, one cell a row, each next
 * to or diagonal to the last.
 *
 * @param costs - `width * height` costs of 0 or more, row by row.
 * @param width - Columns, 1 or more.
 * @param options - Whether the cut must close.
 * @returns The column of the cut in each row.
 * @throws RangeError when `costs` is not whole rows.
 * @see Efros and Freeman 2001, Image quilting for texture synthesis and transfer, section 2.2
 */
export function cheapestCut(
  costs: Float32Array,
  width: number,
  options: CutOptions = {},
): Int32Array {
  const { closed = false } = options;
  const height = costs.length / width;
  if (!(Number.isInteger(height) && height >= 1)) {
    throw outOfRange('whole rows of 1 cell or more', 'costs', costs.length);
  }
  const sums = new Float64Array(costs.length);
  if (!closed) {
    sumCosts(costs, sums, { width, low: 0, high: width });
    return walkBack(sums, width, cheapestIn(sums, sums.length - width, width));
  }
  const every = Math.max(1, Math.ceil((costs.length * width) / exactWork));
  let best = new Int32Array(0);
  let least = Infinity;
  for (let start = 0; start < width; start += every) {
    sumCosts(costs, sums, { width, low: start, high: start + 1 });
    const sum = sums[sums.length - width + start]!;
    if (sum < least) [best, least] = [walkBack(sums, width, start), sum];
  }
  return best;
}

// E(i, j) = e(i, j) + min(E(i-1, j-1), E(i-1, j), E(i-1, j+1)), begun in columns low to high.
function sumCosts(
  costs: Float32Array,
  sums: Float64Array,
  from: { readonly width: number; readonly low: number; readonly high: number },
): void {
  const { width, low, high } = from;
  for (let x = 0; x < width; x++) sums[x] = x >= low && x < high ? costs[x]! : Infinity;
  for (let row = width; row < costs.length; row += width) {
    for (let x = 0; x < width; x++) {
      const above = row - width + x;
      let least = sums[above]!;
      if (x > 0 && sums[above - 1]! < least) least = sums[above - 1]!;
      if (x + 1 < width && sums[above + 1]! < least) least = sums[above + 1]!;
      sums[row + x] = costs[row + x]! + least;
    }
  }
}

function cheapestIn(sums: Float64Array, start: number, width: number): number {
  let at = 0;
  for (let x = 1; x < width; x++) if (sums[start + x]! < sums[start + at]!) at = x;
  return at;
}

function walkBack(sums: Float64Array, width: number, end: number): Int32Array<ArrayBuffer> {
  const height = sums.length / width;
  const columns = new Int32Array(height);
  let x = end;
  for (let y = height - 1; y >= 0; y--) {
    columns[y] = x;
    if (y === 0) break;
    const above = (y - 1) * width;
    let next = x;
    if (x > 0 && sums[above + x - 1]! < sums[above + next]!) next = x - 1;
    if (x + 1 < width && sums[above + x + 1]! < sums[above + next]!) next = x + 1;
    x = next;
  }
  return columns;
}
