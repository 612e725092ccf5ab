// The largest prime under 2¹⁶, and how many bytes may be summed before 32 bits run over.
const base = 65_521;
const run = 5552;

/**
 * The checksum of a zlib stream.
 *
 * @param data - Any bytes.
 * @returns Adler-32, 0 to 2³² - 1.
 * @see RFC 1950, 8.2
 */
export function adler32(data: Uint8Array): number {
  let low = 1;
  let high = 0;
  for (let from = 0; from < data.length; from += run) {
    const to = Math.min(from + run, data.length);
    for (let i = from; i < to; i++) {
      low += data[i]!;
      high += low;
    }
    low %= base;
    high %= base;
  }
  return high * 65_536 + low;
}

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
