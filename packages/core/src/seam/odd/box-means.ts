/** A plane that goes on around its edges, summed up so that the mean of any box in it is at hand. */
export interface BoxSums {
  /** Columns of the plane. */
  readonly width: number;
  /** Rows of the plane. */
  readonly height: number;
  /** Columns of the sums: those of two planes side by side, and one. */
  readonly stride: number;
  /** Sums from the top left, of two planes each way. */
  readonly sums: Float64Array;
}

/**
 * Sum a plane up.
 *
 * @param plane - `width * height` numbers, row by row.
 * @param width - Columns.
 * @param height - Rows.
 * @returns The sums (F. C. Crow, Summed-area tables for texture mapping, SIGGRAPH 1984).
 */
export function sumBoxes(plane: Float32Array, width: number, height: number): BoxSums {
  const stride = 2 * width + 1;
  const sums = new Float64Array(stride * (2 * height + 1));
  for (let y = 0; y < 2 * height; y++) {
    const from = (y % height) * width;
    let row = 0;
    for (let x = 0, at = (y + 1) * stride + 1; x < 2 * width; x++, at++) {
      row += plane[from + (x < width ? x : x - width)]!;
      sums[at] = sums[at - stride]! + row;
    }
  }
  return { width, height, stride, sums };
}

/**
 * Find the means of all boxes of one size, each about the pixel in its middle.
 *
 * @param boxes - Of a plane.
 * @param columns - Of a box, 1 to the plane's width.
 * @param rows - Of a box, 1 to the plane's height.
 * @param out - As large as the plane; filled.
 * @returns The same `out`.
 */
export function boxMeans(
  boxes: BoxSums,
  columns: number,
  rows: number,
  out: Float32Array,
): Float32Array {
  const { width, height, stride, sums } = boxes;
  const share = 1 / (columns * rows);
  const left = width - (columns >> 1);
  const above = height - (rows >> 1);
  for (let y = 0; y < height; y++) {
    const top = ((y + above) % height) * stride;
    const foot = top + rows * stride;
    for (let x = 0, from = left % width, at = y * width; x < width; x++, at++) {
      const to = from + columns;
      out[at] =
        (sums[foot + to]! - sums[foot + from]! - sums[top + to]! + sums[top + from]!) * share;
      if (++from === width) from = 0;
    }
  }
  return out;
}
