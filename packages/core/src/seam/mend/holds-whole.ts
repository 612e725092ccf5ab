// What a measured repeat may be off by, as a fraction; and all that a picture holds, in repeats.
const mostOff = 0.02;
const mostAstray = 0.15;

/**
 * Tell whether a picture holds a whole number of bond repeats, to within what a measurement is
 * unsure of: ends that meet may do so by chance.
 *
 * @param length - The picture along one axis, px.
 * @param repeat - One bond repeat along it, px.
 * @returns Whether it may be laid end to end without cutting a brick.
 */
export function holdsWhole(length: number, repeat: number): boolean {
  const held = length / repeat;
  const off = Math.abs(held - Math.round(held));
  return held > 1 - mostOff && off < Math.min(mostOff * held, mostAstray);
}
