/** Which samples are laid on which. */
export interface Laid {
  /** First of the one. */
  readonly from: number;
  /** The one after its last. */
  readonly to: number;
  /** How many samples further on those of the other lie. */
  readonly shift: number;
}

/**
 * Correlate curves with others, about 0, all curves together.
 *
 * @param ones - Curves.
 * @param others - As many.
 * @param laid - What lies on what.
 * @returns -1 to 1; 0 where one of them shows nothing.
 */
export function likenessAt(
  ones: readonly Float64Array[],
  others: readonly Float64Array[],
  laid: Laid,
): number {
  const { from, to, shift } = laid;
  let [product, before, after] = [0, 1e-9, 1e-9];
  for (let k = 0; k < ones.length; k++) {
    const one = ones[k]!;
    const other = others[k]!;
    for (let i = from, j = from + shift; i < to; i++, j++) {
      const a = one[i]!;
      const b = other[j]!;
      product += a * b;
      before += a * a;
      after += b * b;
    }
  }
  return product / Math.sqrt(before * after);
}
