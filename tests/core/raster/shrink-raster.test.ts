import { expect, test } from 'vitest';
import { createRaster } from '../../../packages/core/src/raster/raster.js';
import { shrinkRaster } from '../../../packages/core/src/raster/shrink-raster.js';

test.each([2, 3, 4, 5])(
  'each pixel of a picture %i times smaller is the mean of a square',
  (times) => {
    const raster = createRaster(3 * times + 1, 2 * times + 1);
    raster.planes.forEach((plane, channel) => {
      for (let i = 0; i < plane.length; i++) plane[i] = ((i * 37 + channel * 11) % 101) / 101;
    });
    const small = shrinkRaster(raster, times);
    expect([small.width, small.height]).toEqual([3, 2]);
    for (const [channel, plane] of raster.planes.entries()) {
      for (let y = 0; y < 2; y++) {
        for (let x = 0; x < 3; x++) {
          let sum = 0;
          for (let v = 0; v < times; v++) {
            for (let u = 0; u < times; u++) {
              sum += plane[(y * times + v) * raster.width + x * times + u]!;
            }
          }
          expect(small.planes[channel]![y * 3 + x]).toBeCloseTo(sum / times ** 2, 6);
        }
      }
    }
  },
);

test('a picture is made no smaller than one pixel, nor by parts', () => {
  const raster = createRaster(5, 3);
  expect(shrinkRaster(raster, 1)).toBe(raster);
  for (const times of [0, 1.5, 4, NaN])
    expect(() => shrinkRaster(raster, times)).toThrow(RangeError);
});
