/**
 * Find the number below which a share of some numbers lies.
 *
 * @param values - Any number of them, in any order; left as they are.
 * @param share - 0 for the least to 1 for the greatest.
 * @returns One of them, or 0 of none.
 */
export function quantile(values: Float64Array, share: number): number {
  return values.toSorted()[Math.floor(share * (values.length - 1))] ?? 0;
}
