import fc from 'fast-check';
import { expect, test } from 'vitest';
import { reducedSize } from '../../../packages/core/src/read/reduced-size.js';

test('a photo of 3 to 2 is made smaller in exactly that shape', () => {
  // 1600 x 1066.67 is no whole number of pixels; 1599 x 1066 is 3 to 2.
  expect(reducedSize({ width: 6000, height: 4000 }, 1600)).toEqual({ width: 1599, height: 1066 });
  expect(reducedSize({ width: 4000, height: 6000 }, 1600)).toEqual({ width: 1066, height: 1599 });
});

test('a photo under twice the size that will do stays as it is', () => {
  const size = { width: 3199, height: 2000 };
  expect(reducedSize(size, 1600)).toEqual(size);
});

test('pixels of a smaller photo are square to a part in two thousand, panoramas too', () => {
  const side = fc.integer({ min: 1000, max: 12_000 });
  fc.assert(
    fc.property(side, side, (width, height) => {
      const small = reducedSize({ width, height }, 1600);
      const aspect = width / small.width / (height / small.height);
      expect(Math.abs(aspect - 1)).toBeLessThan(5e-4);
    }),
  );
});
