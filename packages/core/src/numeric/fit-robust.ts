import { outOfRange } from '../errors/out-of-range.js';

/**
 * Fit a sum of curves to values by least squares, reweighted so that a few values that stand far
 * off do not bend it.
 *
 * @param curves - `n * count` numbers: what each of `count` curves is at each of `n` places.
 * @param values - `n` values, `n` no less than `count`.
 * @param start - Where to begin, as `count` amounts; from all values alike unless told.
 * @returns How much of each curve.
 * @throws RangeError when the lengths do not fit.
 * @see Beaton and Tukey 1974, The fitting of power series, Technometrics 16: the biweight
 */
export function fitRobust(
  curves: Float64Array,
  values: Float64Array,
  start?: Float64Array,
): Float64Array {
  const size = values.length;
  const count = curves.length / size;
  if (!(Number.isInteger(count) && count >= 1 && count <= size)) {
    throw outOfRange(`whole curves over ${size} values`, 'curves', curves.length);
  }
  const weights = new Float64Array(size).fill(1);
  const misfits = new Float64Array(size);
  let fit = start ?? solveNormal(curves, values, weights);
  for (let round = 0; round < 5; round++) {
    for (let i = 0; i < size; i++) {
      let sum = values[i]!;
      for (let k = 0; k < count; k++) sum -= fit[k]! * curves[i * count + k]!;
      misfits[i] = Math.abs(sum);
    }
    // 1.4826 medians of absolute misfits make a deviation; past 4.685 of those a value has no say.
    const far = 4.685 * 1.4826 * misfits.toSorted()[size >> 1]!;
    if (!(far > 0)) break;
    for (let i = 0; i < size; i++) {
      const share = misfits[i]! / far;
      weights[i] = share < 1 ? (1 - share * share) ** 2 : 0;
    }
    fit = solveNormal(curves, values, weights);
  }
  return fit;
}

function solveNormal(
  curves: Float64Array,
  values: Float64Array,
  weights: Float64Array,
): Float64Array {
  const size = values.length;
  const count = curves.length / size;
  const stride = count + 1;
  const table = new Float64Array(count * stride);
  for (let i = 0; i < size; i++) {
    const weight = weights[i]!;
    for (let row = 0; row < count; row++) {
      const share = weight * curves[i * count + row]!;
      for (let k = 0; k < count; k++) table[row * stride + k]! += share * curves[i * count + k]!;
      table[row * stride + count]! += share * values[i]!;
    }
  }
  return eliminate(table, count);
}

// Gauss and Jordan without a search for pivots: the table is symmetric and positive, and a hair on
// its diagonal keeps curves that the weights have emptied at 0.
function eliminate(table: Float64Array, count: number): Float64Array {
  const stride = count + 1;
  for (let row = 0; row < count; row++) table[row * stride + row]! += 1e-9;
  for (let pivot = 0; pivot < count; pivot++) {
    const scale = 1 / table[pivot * stride + pivot]!;
    for (let k = pivot; k <= count; k++) table[pivot * stride + k]! *= scale;
    for (let row = 0; row < count; row++) {
      if (row === pivot) continue;
      const share = table[row * stride + pivot]!;
      for (let k = pivot; k <= count; k++) {
        table[row * stride + k]! -= share * table[pivot * stride + k]!;
      }
    }
  }
  return Float64Array.from({ length: count }, (_, row) => table[row * stride + count]!);
}
