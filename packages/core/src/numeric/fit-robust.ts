import { outOfRange } from '../errors/out-of-range.js';

// Deviations past which a value has no say. Of values that scatter by a bell 4.685 would waste less,
// but a step of a few of them, as a plinth below a wall is, would still bend the fit.
const reach = 3;

/**
 * Tell from how far off a fit a value has no say in it.
 *
 * @param misfits - Of each value, 0 or more.
 * @returns The least misfit that does not count.
 */
export function farOff(misfits: Float64Array): number {
  // 1.4826 medians of absolute misfits make a deviation.
  return reach * 1.4826 * misfits.toSorted()[misfits.length >> 1]!;
}

/**
 * Fit a sum of curves to values by least squares, reweighted so that a few values that stand far
 * off do not bend it.
 *
 * @param curves - `n * count` numbers: what each of `count` curves is at each of `n` places.
 * @param values - `n` values, `n` no less than `count`.
 * @param start - Where to begin: `count` amounts, near most values and not bent to the others.
 * @returns How much of each curve.
 * @throws RangeError when the lengths do not fit.
 * @see Beaton and Tukey 1974, The fitting of power series, Technometrics 16: the biweight
 */
export function fitRobust(
  curves: Float64Array,
  values: Float64Array,
  start: Float64Array,
): Float64Array {
  const size = values.length;
  const count = curves.length / size;
  if (!(Number.isInteger(count) && count >= 1 && count <= size)) {
    throw outOfRange(`whole curves over ${size} values`, 'curves', curves.length);
  }
  if (start.length !== count) throw outOfRange(`${count} amounts`, 'start', start.length);
  const weights = new Float64Array(size);
  const misfits = new Float64Array(size);
  let fit = start;
  for (let round = 0; round < 5; round++) {
    for (let i = 0; i < size; i++) {
      let sum = values[i]!;
      for (let k = 0; k < count; k++) sum -= fit[k]! * curves[i * count + k]!;
      misfits[i] = Math.abs(sum);
    }
    const far = farOff(misfits);
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
