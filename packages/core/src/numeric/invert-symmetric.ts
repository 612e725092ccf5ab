/**
 * Invert a symmetric, positive matrix.
 *
 * @param matrix - `size * size` numbers, row by row; left as it is.
 * @param size - Rows, and columns.
 * @returns Its inverse. A direction that the matrix does not hold is given none.
 */
export function invertSymmetric(matrix: Float64Array, size: number): Float64Array {
  const work = matrix.slice();
  const out = new Float64Array(size * size);
  for (let i = 0; i < size; i++) out[i * size + i] = 1;
  for (let pivot = 0; pivot < size; pivot++) {
    const head = work[pivot * size + pivot]!;
    const held = head > 1e-12 * Math.max(1e-12, matrix[pivot * size + pivot]!);
    const scale = held ? 1 / head : 0;
    for (let k = 0; k < size; k++) {
      work[pivot * size + k]! *= scale;
      out[pivot * size + k]! *= scale;
    }
    for (let row = 0; row < size; row++) {
      if (row === pivot) continue;
      const share = work[row * size + pivot]!;
      for (let k = 0; k < size; k++) {
        work[row * size + k]! -= share * work[pivot * size + k]!;
        out[row * size + k]! -= share * out[pivot * size + k]!;
      }
    }
  }
  return out;
}
