import { outOfRange } from '../errors/out-of-range.js';

/** How a cut may run. */
export interface CutOptions {
  /** Whether it must end in the column it began in, so that the cut itself repeats. */
  readonly closed?: boolean;
}

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
  const left = new Int32Array(height);
  const right = new Int32Array(height).fill(width - 1);
  if (closed) return cheapestClosed({ costs, sums, width }, left, right).cut;
  sumCosts({ costs, sums, width }, { left, right, low: 0, high: width - 1 });
  return walkBack(sums, width, cheapestIn(sums, costs.length - width, width));
}

interface CostTable {
  readonly costs: Float32Array;
  readonly sums: Float64Array;
  readonly width: number;
}

// Cheapest cuts need never cross: the one that begins half-way parts the table in two, and those
// that begin left of it stay left of it. So every closed cut is looked at, in little time.
function cheapestClosed(
  table: CostTable,
  left: Int32Array,
  right: Int32Array,
): { cut: Int32Array; cost: number } {
  const { sums, width } = table;
  const low = left[0]!;
  const high = right[0]!;
  const start = (low + high) >> 1;
  sumCosts(table, { left, right, low: start, high: start });
  let cost = sums[sums.length - width + start]!;
  let cut = walkBack(sums, width, start);
  const middle = cut;
  if (start > low) {
    const other = cheapestClosed(table, left, bounded(middle, { first: start - 1, start }));
    if (other.cost < cost) ({ cut, cost } = other);
  }
  if (start < high) {
    const other = cheapestClosed(table, bounded(middle, { first: start + 1, start }), right);
    if (other.cost < cost) ({ cut, cost } = other);
  }
  return { cut, cost };
}

// The same border, with its two ends moved to where the next search begins and closes.
function bounded(
  border: Int32Array,
  ends: { readonly first: number; readonly start: number },
): Int32Array {
  const moved = border.slice();
  moved[0] = ends.first;
  moved[moved.length - 1] = ends.first;
  return moved;
}

// E(i, j) = e(i, j) + min(E(i-1, j-1), E(i-1, j), E(i-1, j+1)), between two borders.
function sumCosts(
  { costs, sums, width }: CostTable,
  within: {
    readonly left: Int32Array;
    readonly right: Int32Array;
    // Columns that it may begin in.
    readonly low: number;
    readonly high: number;
  },
): void {
  const { left, right, low, high } = within;
  sums.fill(Infinity, 0, width);
  for (let x = low; x <= high; x++) sums[x] = costs[x]!;
  for (let y = 1; y < left.length; y++) {
    const row = y * width;
    const end = right[y]!;
    // What an earlier search left beyond the borders is out of bounds. The next row looks two cells
    // past them at most: one where its border steps outwards, one for the diagonal.
    sums.fill(Infinity, row + Math.max(0, left[y]! - 2), row + left[y]!);
    sums.fill(Infinity, row + end + 1, row + Math.min(width, end + 3));
    for (let x = left[y]!; x <= end; x++) {
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

function walkBack(sums: Float64Array, width: number, end: number): Int32Array {
  const columns = new Int32Array(sums.length / width);
  let x = end;
  columns[columns.length - 1] = x;
  for (let y = columns.length - 2; y >= 0; y--) {
    const row = y * width;
    let next = x;
    if (x > 0 && sums[row + x - 1]! < sums[row + next]!) next = x - 1;
    if (x + 1 < width && sums[row + x + 1]! < sums[row + next]!) next = x + 1;
    x = next;
    columns[y] = x;
  }
  return columns;
}
