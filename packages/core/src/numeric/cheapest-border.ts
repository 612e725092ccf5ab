import { outOfRange } from '../errors/out-of-range.js';

/** What a border between left and right costs, cell by cell. */
export interface BorderCosts {
  /** Columns, 1 or more. */
  readonly width: number;
  /** `width * height` costs of 0 or more: of passing left of a cell, from its top to its foot. */
  readonly across: Float32Array;
  /**
   * As many: of passing above a cell, from its left to its right. Those of the first row count where
   * the border closes.
   */
  readonly along: Float32Array;
}

/** How a border may run. */
export interface BorderOptions {
  /** Whether its foot must meet its top, so that the border itself repeats. */
  readonly closed?: boolean;
}

/**
 * Find the cheapest border from the top of a grid to its foot. Like a cut through overlapping pieces
 * it passes every row once; between two rows it may run as far as it likes, along a joint.
 *
 * @param costs - Of every step.
 * @param options - Whether it must close.
 * @returns Row by row, the first cell to its right.
 * @throws RangeError when the costs are not whole rows, as many one way as the other.
 * @see Efros and Freeman 2001, Image quilting for texture synthesis and transfer, section 2.2
 */
export function cheapestBorder(costs: BorderCosts, options: BorderOptions = {}): Int32Array {
  const { width, across, along } = costs;
  const { closed = false } = options;
  const height = across.length / width;
  if (!(Number.isInteger(height) && height >= 1 && along.length === across.length)) {
    throw outOfRange('whole rows of costs, both ways', 'costs', across.length);
  }
  const table = {
    ...costs,
    height,
    sums: new Float64Array(width),
    from: new Int32Array(across.length),
  };
  const left = new Int32Array(height);
  const right = new Int32Array(height).fill(width - 1);
  if (closed) return cheapestClosed(table, left, right).border;
  table.sums.fill(0);
  sumCosts(table, left, right);
  let end = 0;
  for (let x = 1; x < width; x++) if (table.sums[x]! < table.sums[end]!) end = x;
  return walkBack(table, end);
}

interface CostTable extends BorderCosts {
  readonly height: number;
  // Cheapest way to each cell of the row at hand.
  readonly sums: Float64Array;
  // The column of the row above from which that came.
  readonly from: Int32Array;
}

interface Found {
  readonly border: Int32Array;
  readonly cost: number;
}

// Cheapest borders need never cross: the one that begins half-way parts the grid in two, and those
// that begin left of it stay left of it. So every closed border is looked at, in little time.
function cheapestClosed(table: CostTable, left: Int32Array, right: Int32Array): Found {
  const low = left[0]!;
  const high = right[0]!;
  const start = (low + high) >> 1;
  let best = closeAt(table, start, { left, right });
  const { border } = best;
  if (start > low) {
    const other = cheapestClosed(table, left, startingAt(border, start - 1));
    if (other.cost < best.cost) best = other;
  }
  if (start < high) {
    const other = cheapestClosed(table, startingAt(border, start + 1), right);
    if (other.cost < best.cost) best = other;
  }
  return best;
}

function startingAt(border: Int32Array, start: number): Int32Array {
  const moved = border.slice();
  moved[0] = start;
  return moved;
}

function closeAt(
  table: CostTable,
  start: number,
  { left, right }: { readonly left: Int32Array; readonly right: Int32Array },
): Found {
  const { sums, along, height } = table;
  sums.fill(Infinity);
  sums[start] = 0;
  sumCosts(table, left, right);
  // From the last row back to the first, along its top.
  let end = start;
  let cost = sums[start];
  let way = 0;
  for (let x = start; x < right[height - 1]!;) {
    way += along[x++]!;
    if (sums[x]! + way < cost) [end, cost] = [x, sums[x]! + way];
  }
  way = 0;
  for (let x = start; x > left[height - 1]!;) {
    way += along[--x]!;
    if (sums[x]! + way < cost) [end, cost] = [x, sums[x]! + way];
  }
  return { border: walkBack(table, end), cost };
}

// Row by row, between two borders: E(y, x) = across(y, x) + min over k of E(y - 1, k) and the way
// from k to x. Two sweeps a row find the minimum.
function sumCosts(table: CostTable, left: Int32Array, right: Int32Array): void {
  const { width, height, across, along, sums, from } = table;
  for (let x = left[0]!; x <= right[0]!; x++) sums[x] = sums[x]! + across[x]!;
  for (let y = 1; y < height; y++) {
    const row = y * width;
    const [first, last] = [left[y]!, right[y]!];
    const low = Math.min(first, left[y - 1]!);
    const high = Math.max(last, right[y - 1]!);
    sums.fill(Infinity, low, left[y - 1]);
    sums.fill(Infinity, right[y - 1]! + 1, high + 1);
    let best = Infinity;
    let at = low;
    for (let x = low; x <= high; x++) {
      const sum = sums[x]!;
      if (sum <= best) {
        best = sum;
        at = x;
      } else sums[x] = best;
      from[row + x] = at;
      best += along[row + x]!;
    }
    best = Infinity;
    for (let x = high; x >= low; x--) {
      best += along[row + x]!;
      const sum = sums[x]!;
      if (sum <= best) {
        best = sum;
        at = from[row + x]!;
      } else {
        sums[x] = best;
        from[row + x] = at;
      }
    }
    for (let x = first; x <= last; x++) sums[x] = sums[x]! + across[row + x]!;
    sums.fill(Infinity, low, first);
    sums.fill(Infinity, last + 1, high + 1);
  }
}

function walkBack({ from, width, height }: CostTable, end: number): Int32Array {
  const border = new Int32Array(height);
  let x = end;
  for (let y = height - 1; y > 0; y--) {
    border[y] = x;
    x = from[y * width + x]!;
  }
  border[0] = x;
  return border;
}
