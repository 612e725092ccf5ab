/**
 * Make 32 bits of chance from a cell of the wall: the same ones everywhere, and for the next cell quite
 * others.
 *
 * @param x - The cell's column, a whole number of any sign.
 * @param y - Its row, likewise.
 * @param seed - Whole, 32 bits.
 * @returns A whole number, 0 to 4294967295.
 * @see A. Appleby, MurmurHash3 (public domain): its 32-bit form, of the two numbers' eight bytes
 */
export function hashCell(x: number, y: number, seed: number): number {
  const first = (seed ^ scatter(x)) | 0;
  let hash = (Math.imul((first << 13) | (first >>> 19), 5) + 0xe6546b64) | 0;
  hash ^= scatter(y);
  hash = (Math.imul((hash << 13) | (hash >>> 19), 5) + 0xe6546b64) | 0;
  // Eight bytes were hashed.
  hash ^= 8;
  hash = Math.imul(hash ^ (hash >>> 16), 0x85ebca6b);
  hash = Math.imul(hash ^ (hash >>> 13), 0xc2b2ae35);
  return (hash ^ (hash >>> 16)) >>> 0;
}

function scatter(word: number): number {
  const much = Math.imul(word, 0xcc9e2d51);
  return Math.imul((much << 15) | (much >>> 17), 0x1b873593);
}

/**
 * The same as a share of one.
 *
 * @param x - The cell's column.
 * @param y - Its row.
 * @param seed - Whole, 32 bits.
 * @returns 0 up to 1.
 */
export function chanceOf(x: number, y: number, seed: number): number {
  return hashCell(x, y, seed) / 2 ** 32;
}
