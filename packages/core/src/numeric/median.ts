/**
 * Find the middle of some numbers.
 *
 * @param values - Any number of them, in any order; left as they are.
 * @returns The middle one, the mean of the middle two, or 0 of none.
 */
export function median(values: Float64Array): number {
  const sorted = values.slice().sort();
  const half = sorted.length >> 1;
  if (sorted.length === 0) return 0;
  return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
}
