/**
 * Say how far it is from one place on a ring to another, the shorter way round.
 *
 * @param step - From one to the other, any way round.
 * @param length - Of the ring, above 0.
 * @returns From minus half the length to half of it.
 */
export function shorterWay(step: number, length: number): number {
  return step - Math.round(step / length) * length;
}
