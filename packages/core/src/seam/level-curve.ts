/**
 * Take out of a curve what changes slowly.
 *
 * @param values - From one end to the other; left as they are.
 * @param reach - Values on each side over which it is levelled, 1 or more; fewer at the ends.
 * @returns A new curve, about 0.
 */
export function levelCurve(values: Float64Array, reach: number): Float64Array {
  const { length } = values;
  const sums = new Float64Array(length + 1);
  for (let i = 0; i < length; i++) sums[i + 1] = sums[i]! + values[i]!;
  const out = new Float64Array(length);
  for (let i = 0; i < length; i++) {
    const from = Math.max(0, i - reach);
    const to = Math.min(length, i + reach + 1);
    out[i] = values[i]! - (sums[to]! - sums[from]!) / (to - from);
  }
  return out;
}
