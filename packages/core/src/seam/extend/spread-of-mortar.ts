// Mortar on six sides, in three colours.
const size = 18;

/**
 * Say how much the mortar about bricks differs from brick to brick.
 *
 * @param bricks - Each with the mortar on its six sides, in three colours.
 * @returns The variance, the mean over sides and colours; always above 0.
 */
export function spreadOfMortar(bricks: readonly { readonly mortar: Float64Array }[]): number {
  const count = Math.max(1, bricks.length);
  let spread = 1e-6;
  for (let i = 0; i < size; i++) {
    let [sum, squares] = [0, 0];
    for (const { mortar } of bricks) {
      sum += mortar[i]!;
      squares += mortar[i]! ** 2;
    }
    const mean = sum / count;
    spread += Math.max(0, squares / count - mean * mean) / size;
  }
  return spread;
}
