/**
 * Invert a matrix by Gauss and Jordan, each time by the largest pivot of its column.
 *
 * @param matrix - `size * size` numbers, row by row; left as it is.
 * @param size - Rows, and columns.
 * @returns Its inverse.
 * @throws RangeError when it has none.
 */
export function invertMatrix(matrix: Float64Array, size: number): Float64Array {
  const work = matrix.slice();
  const out = new Float64Array(size * size);
  for (let i = 0; i < size; i++) out[i * size + i] = 1;
  for (let pivot = 0; pivot < size; pivot++) {
    let best = pivot;
    for (let row = pivot + 1; row < size; row++) {
      const here = Math.abs(work[row * size + pivot]!);
      if (here > Math.abs(work[best * size + pivot]!)) best = row;
    }
    const head = work[best * size + pivot]!;
    if (!(Math.abs(head) > 1e-13)) throw new RangeError('expected a matrix that can be inverted');
    swapRows(work, size, [pivot, best]);
    swapRows(out, size, [pivot, best]);
    for (let k = 0; k < size; k++) {
      work[pivot * size + k]! /= head;
      out[pivot * size + k]! /= head;
    }
    for (let row = 0; row < size; row++) {
      const share = work[row * size + pivot]!;
      if (row === pivot || share === 0) continue;
      for (let k = 0; k < size; k++) {
        work[row * size + k]! -= share * work[pivot * size + k]!;
        out[row * size + k]! -= share * out[pivot * size + k]!;
      }
    }
  }
  return out;
}

function swapRows(
  matrix: Float64Array,
  size: number,
  [one, other]: readonly [number, number],
): void {
  if (one === other) return;
  const kept = matrix.slice(one * size, (one + 1) * size);
  matrix.copyWithin(one * size, other * size, (other + 1) * size);
  matrix.set(kept, other * size);
}
