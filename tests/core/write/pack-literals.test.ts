import { constants, deflateSync, inflateRawSync } from 'node:zlib';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { chunkHead } from '../../../packages/core/src/write/png/chunk.js';
import {
  layCodeLengths,
  layCodes,
  reversed,
} from '../../../packages/core/src/write/png/huffman.js';
import { openPacker } from '../../../packages/core/src/write/png/pack-literals.js';

const pack = openPacker();
// RFC 1951: a last block of fixed codes that holds nothing.
const lastBlock = Uint8Array.of(0x03, 0x00);

const unpack = (chunk: Buffer): Buffer =>
  inflateRawSync(Buffer.concat([chunk.subarray(chunkHead, chunk.length - 4), lastBlock]));

// RFC 1950: the last four bytes of what zlib makes are Adler-32.
function adlerOf(bytes: Uint8Array): number {
  const packed = deflateSync(bytes);
  return packed.readUInt32BE(packed.length - 4);
}

// As what is left of a row after its filter: small numbers of either sign, most of them near 0.
function leftovers(length: number): Uint8Array {
  let state = 7;
  const chance = (): number => (state = (state * 48_271) % 2_147_483_647) / 2_147_483_647;
  return Uint8Array.from(
    { length },
    () => 12 * (chance() + chance() + chance() + chance() - 2) + 256,
  );
}

test('zlib unpacks what is packed, and sums it alike', () => {
  fc.assert(
    fc.property(fc.uint8Array({ minLength: 1, maxLength: 3000 }), (bytes) => {
      const { chunk, adler } = pack(bytes);
      expect(unpack(chunk).equals(bytes)).toBe(true);
      expect(adler).toBe(adlerOf(bytes));
    }),
  );
});

test('of one byte only, of all alike at the top, of each end of a block: all of them come back', () => {
  for (const bytes of [
    Uint8Array.of(0),
    new Uint8Array(100_000).fill(255),
    leftovers(32_767),
    leftovers(32_768),
    leftovers(32_769),
    leftovers(200_003),
  ]) {
    const { chunk, adler } = pack(bytes);
    expect(unpack(chunk).equals(bytes)).toBe(true);
    expect(adler).toBe(adlerOf(bytes));
  }
});

test('it takes about as few bytes as codes of zlib do that looks for nothing else', () => {
  const bytes = leftovers(1 << 20);
  const theirs = deflateSync(bytes, { strategy: constants.Z_HUFFMAN_ONLY, memLevel: 8 });
  expect(pack(bytes).chunk.length).toBeLessThan(1.01 * theirs.length);
});

test('codes follow from their lengths as the standard has it', () => {
  // RFC 1951, 3.2.2: ABCDEFGH of 3, 3, 3, 3, 3, 2, 4, 4 bits.
  const lengths = Uint8Array.of(3, 3, 3, 3, 3, 2, 4, 4);
  const codes = new Int32Array(8);
  layCodes(lengths, codes);
  const shown = Array.from(codes, (code) => {
    const count = code & 15;
    return reversed(code >>> 4, count)
      .toString(2)
      .padStart(count, '0');
  });
  expect(shown).toEqual(['010', '011', '100', '101', '110', '00', '1110', '1111']);
});

test('no code is longer than deflate allows, and together they leave none over', () => {
  // Of counts as Fibonacci's numbers each is joined to all before it: the deepest tree there is.
  const counts = Int32Array.of(1, 1);
  const deep = Int32Array.from({ length: 28 }, (_, i) => {
    if (i > 1) [counts[0], counts[1]] = [counts[1]!, counts[0]! + counts[1]!];
    return counts[1]!;
  });
  const lengths = new Uint8Array(deep.length);
  layCodeLengths(deep, lengths);
  expect(Math.max(...lengths)).toBeLessThanOrEqual(15);
  // Kraft 1949: a code that is whole.
  expect(lengths.reduce((sum, length) => sum + 2 ** -length, 0)).toBe(1);
});
