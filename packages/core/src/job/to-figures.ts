/**
 * Round a measured number to the figures that mean something, so that a report reads well.
 *
 * @param value - Any finite number.
 * @param figures - Significant figures to keep, 1 to 15.
 * @returns `1.49959` for `1.4995925634504768` and 6.
 */
export function toFigures(value: number, figures: number): number {
  return Number(value.toPrecision(figures));
}
