/**
 * Take out of a curve what changes slowly.
 *
 * @param values - From one end to the other, where it goes on as it began; left as they are.
 * @param reach - Values on each side over which it is levelled, 1 or more, less than half of all.
 * @returns A new curve, about 0.
 */
export function levelCurve(values: Float64Array, reach: number): Float64Array {
  const { length } = values;
  const width = 2 * reach + 1;
  const out = new Float64Array(length);
  let sum = 0;
  for (let i = -reach; i <= reach; i++) sum += values[(i + length) % length]!;
  for (let i = 0; i < length; i++) {
    out[i] = values[i]! - sum / width;
    sum += values[(i + reach + 1) % length]! - values[(i - reach + length) % length]!;
  }
  return out;
}
