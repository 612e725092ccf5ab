/**
 * Turn imperial into metric: 1 in = 25.4 mm exactly, so 3 in are 76.2 mm and not a bit less.
 *
 * @param count - How many inches, fractions too.
 * @returns That length in mm.
 */
export function inches(count: number): number {
  return (count * 254) / 10;
}
