/** Size of a window. */
export interface WindowSize {
  /** Columns. */
  readonly width: number;
  /** Rows. */
  readonly height: number;
}

/**
 * Tell where two windows both show mortar. A cut runs as well beside the middle of a joint: grain in
 * the mortar is no reason to leave it.
 *
 * @param one - How like mortar each pixel of one is.
 * @param other - The same of the other.
 * @param size - Columns and rows, the same in both.
 * @returns 0 brick to 1 mortar in both, mean of each pixel and its neighbours.
 */
export function inBoth(one: Float32Array, other: Float32Array, size: WindowSize): Float32Array {
  const { width, height } = size;
  const both = one.map((value, i) => Math.min(1, Math.max(0, Math.min(value, other[i]!))));
  const rows = new Float32Array(both.length);
  for (let y = 0; y < height; y++) {
    const start = y * width;
    for (let x = 0; x < width; x++) {
      const left = both[start + Math.max(0, x - 1)]!;
      const right = both[start + Math.min(width - 1, x + 1)]!;
      rows[start + x] = (left + both[start + x]! + right) / 3;
    }
  }
  for (let y = 0; y < height; y++) {
    const above = Math.max(0, y - 1) * width;
    const below = Math.min(height - 1, y + 1) * width;
    for (let x = 0; x < width; x++) {
      both[y * width + x] = (rows[above + x]! + rows[y * width + x]! + rows[below + x]!) / 3;
    }
  }
  return both;
}
