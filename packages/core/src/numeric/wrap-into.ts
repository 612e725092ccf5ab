/**
 * Bring a place on a ring into its first round.
 *
 * @param place - Anywhere.
 * @param length - Of the ring, above 0.
 * @returns 0 up to the length.
 */
export function wrapInto(place: number, length: number): number {
  return ((place % length) + length) % length;
}
