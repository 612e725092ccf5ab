import fc from 'fast-check';
import { expect, test } from 'vitest';
import { chanceOf, hashCell } from '../../../../packages/core/src/finish/weather/hash-cell.js';
import { murmurHash } from '../../../support/murmur-hash.js';

const bytesOf = (word: number): number[] => [0, 8, 16, 24].map((by) => (word >>> by) & 255);

test('the judge is MurmurHash3: the verification of its author', () => {
  // A. Appleby, SMHasher (public domain): VerificationTest of KeysetTest.cpp hashes the keys {}, {0}, {0, 1} … of
  // up to 255 bytes, each with the seed 256 less its length, and then all of those hashes with the seed 0; main.cpp
  // states what the 32-bit form has to come to.
  const hashes = Array.from({ length: 256 }, (_, length) =>
    bytesOf(
      murmurHash(
        Array.from({ length }, (_byte, i) => i),
        256 - length,
      ),
    ),
  );
  expect(murmurHash(hashes.flat(), 0)).toBe(0xb0f57ee3);
});

test('a cell is hashed as its eight bytes are', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: -(2 ** 31), max: 2 ** 31 - 1 }),
      fc.integer({ min: -(2 ** 31), max: 2 ** 31 - 1 }),
      fc.integer({ min: 0, max: 2 ** 32 - 1 }),
      (x, y, seed) => {
        expect(hashCell(x, y, seed)).toBe(murmurHash([...bytesOf(x), ...bytesOf(y)], seed | 0));
      },
    ),
  );
});

// Pearson's sum over so many equal classes.
function chiSquare(counts: readonly number[]): number {
  const mean = counts.reduce((sum, count) => sum + count, 0) / counts.length;
  return counts.reduce((sum, count) => sum + (count - mean) ** 2 / mean, 0);
}

test.each([1, 2, 3, 4_294_967_295])(
  'chance is even, and next cells know nothing of each other: %d',
  (seed) => {
    const ways = new Array<number>(16).fill(0);
    const pairs = new Array<number>(50).fill(0);
    for (let y = -60; y < 60; y++) {
      for (let x = -60; x < 60; x++) {
        ways[hashCell(x, y, seed) >>> 28]!++;
        const [here, next] = [chanceOf(x, y, seed), chanceOf(x + 1, y, seed)];
        pairs[5 * Math.floor(10 * here) + Math.floor(5 * next)]!++;
      }
    }
    // NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.4: upper critical values of chi-square at
    // 0.001 are 37.697 for 15 degrees of freedom and 85.351 for 49.
    expect(chiSquare(ways)).toBeLessThan(37.697);
    expect(chiSquare(pairs)).toBeLessThan(85.351);
  },
);
