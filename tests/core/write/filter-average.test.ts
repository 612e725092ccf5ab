import fc from 'fast-check';
import { expect, test } from 'vitest';
import { openAverage } from '../../../packages/core/src/write/png/filter-average.js';

test('rows of what is varied are filtered by Average, wherever they lie in memory', () => {
  fc.assert(
    fc.property(
      fc.constantFrom(3, 4),
      fc.integer({ min: 1, max: 40 }),
      fc.integer({ min: 0, max: 3 }),
      fc.integer({ min: 0, max: 3 }),
      fc.infiniteStream(fc.integer({ min: 0, max: 255 })),
      (channels, width, off, rowOff, bytes) => {
        const length = channels * width;
        const take = (at: number): Uint8Array =>
          Uint8Array.from({ length: at + length }, () => Number(bytes.next().value)).subarray(at);
        const [row, above] = [take(rowOff), take(0)];
        const filtered = new Uint8Array(off + length + 1).subarray(off);
        openAverage(length, channels)(filtered, row, above);
        expect(filtered[0]).toBe(3);
        // PNG Specification, 9.3: Average(x) = Orig(x) - floor((Orig(a) + Orig(b)) / 2), a being the pixel to the
        // left, 0 where there is none, and b the one above.
        const expected = Array.from(row, (value, i) => {
          const left = i < channels ? 0 : (row[i - channels] ?? 0);
          return (value - Math.floor((left + (above[i] ?? 0)) / 2)) & 255;
        });
        expect([...filtered.subarray(1)]).toEqual(expected);
      },
    ),
  );
});
