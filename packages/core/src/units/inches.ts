/**
 * Bring inches to millimetres: 1 in = 25.4 mm exactly, so 3 in are 76.2 mm and not a bit less.
 *
 * @param count - Inches.
 * @returns Millimetres.
 */
export function inches(count: number): number {
  return (count * 254) / 10;
}
