import fc from 'fast-check';
import { expect, test } from 'vitest';
import { openFilter } from '../../../packages/core/src/write/png/open-filter.js';

// PNG Specification, third edition, 9.2 to 9.4: a is the pixel to the left, b the one above, c the one above left, each 0
// where there is none.
const predictions = {
  1: (a: number) => a,
  3: (a: number, b: number) => Math.floor((a + b) / 2),
  4: (a: number, b: number, c: number) => {
    const p = a + b - c;
    const [pa, pb, pc] = [Math.abs(p - a), Math.abs(p - b), Math.abs(p - c)];
    return pa <= pb && pa <= pc ? a : pb <= pc ? b : c;
  },
} as const;

// Bytes anywhere in memory: any at all, few that are much alike, or the ends of what there is.
const levels = fc.constantFrom<readonly number[]>(
  Array.from({ length: 256 }, (_, i) => i),
  [100, 101, 102, 103],
  [0, 1, 254, 255],
);

test.each([
  [1, 'the first row by Sub', false],
  [3, 'rows of what is varied by Average', true],
  [4, 'others by Paeth', false],
] as const)('type %d: %s, wherever they lie in memory', (type, _, isVaried) => {
  fc.assert(
    fc.property(
      fc.constantFrom(3, 4),
      fc.integer({ min: 1, max: 40 }),
      fc.integer({ min: 0, max: 3 }),
      levels,
      fc.infiniteStream(fc.nat()),
      (channels, width, off, some, chance) => {
        const length = channels * width;
        const take = (at: number): Uint8Array =>
          Uint8Array.from(
            { length: at + length },
            () => some[Number(chance.next().value) % some.length] ?? 0,
          ).subarray(at);
        const [row, above] = [take(off), take(0)];
        const filtered = new Uint8Array(off + length + 1).subarray(off);
        const filter = openFilter({ length, channels, isVaried, again: [] });
        // What was filtered before leaves nothing behind.
        filter(filtered, take(1), take(2));
        filter(filtered, row, type === 1 ? null : above);
        expect(filtered[0]).toBe(type);
        const at = (of: Uint8Array, i: number): number => (i < 0 ? 0 : (of[i] ?? 0));
        const expected = Array.from(row, (value, i) => {
          const left = i - channels;
          const predicted = predictions[type](at(row, left), at(above, i), at(above, left));
          return (value - predicted) & 255;
        });
        expect([...filtered.subarray(1)]).toEqual(expected);
      },
    ),
  );
});
