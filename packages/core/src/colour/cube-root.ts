/** Entries of the table for each unit of light. */
const fineness = 4096;
/** Below this entry the curve is too steep for straight lines between entries. */
const steep = 64;

const roots = Float64Array.from({ length: fineness + 1 }, (_, at) => Math.cbrt(at / fineness));

/**
 * Turn linear light into lightness: its cube root, as in CIE 1976 lightness. Equal steps look about
 * equal, and noise in the dark stays small.
 *
 * @param light - 0 black to 1 white; less counts as black.
 * @returns Its cube root, to 6 decimals or better.
 * @see CIE 15:2004, Colorimetry, 8.2.1
 */
export function cubeRoot(light: number): number {
  if (!(light > 0)) return 0;
  const at = light * fineness;
  if (at < steep || at >= fineness) return Math.cbrt(light);
  const entry = at | 0;
  const root = roots[entry]!;
  return root + (at - entry) * (roots[entry + 1]! - root);
}
