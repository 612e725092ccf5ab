// The largest prime under 2¹⁶.
const base = 65_521;

/**
 * The checksum of two runs of bytes, one after the other, from the checksums of each.
 *
 * @param first - Adler-32 of the first.
 * @param second - Adler-32 of the second.
 * @param length - Bytes of the second, a whole number of 0 or more.
 * @returns Adler-32 of both.
 * @see zlib, adler32_combine
 */
export function combineAdler32(first: number, second: number, length: number): number {
  const rest = length % base;
  const [low1, high1] = [first % 65_536, Math.floor(first / 65_536)];
  const [low2, high2] = [second % 65_536, Math.floor(second / 65_536)];
  const low = (low1 + low2 - 1 + base) % base;
  const high = (rest * low1 + high1 + high2 - rest + base) % base;
  return high * 65_536 + low;
}
