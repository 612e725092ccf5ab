/**
 * Combine independent relative uncertainties and expand them.
 *
 * @param parts - Standard uncertainties (k = 1), each a fraction of its own value.
 * @returns The expanded uncertainty (k = 2) of their product or quotient, in per cent.
 * @see JCGM 100:2008 (GUM), equations 10 and 12
 */
export function expandUncertainty(parts: readonly number[]): number {
  return 200 * Math.hypot(...parts);
}
