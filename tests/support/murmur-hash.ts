function turn(word: number, by: number): number {
  return (word << by) | (word >>> (32 - by));
}

/**
 * MurmurHash3 in its 32-bit form, of any bytes, as its author published it in the public domain: the plain
 * one, to judge ours by.
 *
 * @param bytes - What to hash.
 * @param seed - What to begin with.
 * @returns 0 to 4294967295.
 */
export function murmurHash(bytes: readonly number[], seed: number): number {
  const [c1, c2] = [0xcc9e2d51, 0x1b873593] as const;
  const scatter = (word: number): number => Math.imul(turn(Math.imul(word, c1), 15), c2);
  let hash = seed;
  const blocks = Math.floor(bytes.length / 4);
  for (let block = 0; block < blocks; block++) {
    let word = 0;
    for (let i = 3; i >= 0; i--) word = (word << 8) | bytes[4 * block + i]!;
    hash = (Math.imul(turn(hash ^ scatter(word), 13), 5) + 0xe6546b64) | 0;
  }
  let tail = 0;
  for (let i = bytes.length - 1; i >= 4 * blocks; i--) tail = (tail << 8) | bytes[i]!;
  hash ^= scatter(tail);
  hash ^= bytes.length;
  hash = Math.imul(hash ^ (hash >>> 16), 0x85ebca6b);
  hash = Math.imul(hash ^ (hash >>> 13), 0xc2b2ae35);
  return (hash ^ (hash >>> 16)) >>> 0;
}
