import { createRaster, cropRaster, meanLight, type Raster, resampleRaster } from '@gaugerod/core';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { srgbToLinear } from '../../../packages/core/src/colour/srgb.js';
import { encodeSrgb } from '../../../packages/core/src/colour/srgb.js';
import { noisePicture } from '../../support/noise-picture.js';

function mapped(width: number, height: number, light: (x: number, y: number) => number): Raster {
  const raster = createRaster(width, height);
  for (const plane of raster.planes) {
    for (let i = 0; i < plane.length; i++) plane[i] = light(i % width, Math.floor(i / width));
  }
  return raster;
}

const sizes = fc.integer({ min: 1, max: 40 });

test('a flat picture stays flat at any size', () => {
  fc.assert(
    fc.property(sizes, sizes, sizes, sizes, (width, height, toWidth, toHeight) => {
      const flat = mapped(width, height, () => 0.25);
      const out = resampleRaster(flat, { width: toWidth, height: toHeight });
      for (const value of out.planes[1]) expect(value).toBeCloseTo(0.25, 6);
    }),
  );
});

test('a whole number of times smaller, the mean in linear light is the same', () => {
  const picture = noisePicture(120, 90, 3);
  for (const factor of [2, 3, 5]) {
    const out = resampleRaster(picture, { width: 120 / factor, height: 90 / factor });
    meanLight(out).forEach((mean, channel) => {
      expect(mean).toBeCloseTo(meanLight(picture)[channel]!, 8);
    });
  }
});

test('at any size the mean in linear light is kept to a thousandth', () => {
  const picture = noisePicture(200, 150, 4);
  for (const [width, height] of [
    [74, 56],
    [113, 85],
    [190, 140],
    [260, 200],
    [431, 311],
  ] as const) {
    const [mean] = meanLight(resampleRaster(picture, { width, height }));
    expect(mean / meanLight(picture)[0]).toBeCloseTo(1, 2.7);
  }
});

test('fine black and white stripes become the grey that is half the light, not half the number', () => {
  // IEC 61966-2-1: half the light of white is sRGB 188, where averaged bytes would say 128.
  const stripes = mapped(96, 8, (x) => srgbToLinear(x % 2 === 0 ? 0 : 255));
  for (const width of [48, 32, 24, 12]) {
    const out = resampleRaster(stripes, { width, height: 4 });
    const byte = encodeSrgb(meanLight(out)[0]);
    expect(Math.abs(byte - 188)).toBeLessThanOrEqual(1);
  }
});

test('a window of whole pixels at its own size is a copy', () => {
  const picture = noisePicture(30, 20, 5);
  const window = { x: 7, y: 3, width: 11, height: 9 };
  const copy = resampleRaster(picture, { width: 11, height: 9, window });
  expect(copy.planes).toEqual(cropRaster(picture, window).planes);
});

test('a ramp keeps its place: windows of part of a pixel have their exact phase', () => {
  // The mean of x + 0.5 over a box from a to b is (a + b) / 2.
  const ramp = mapped(60, 3, (x) => (x + 0.5) / 60);
  const window = { x: 3.7, y: 0, width: 43.2, height: 3 };
  const out = resampleRaster(ramp, { width: 16, height: 3, window });
  for (let i = 0; i < 16; i++) {
    expect(out.planes[0][i]! * 60).toBeCloseTo(3.7 + (i + 0.5) * 2.7, 1);
  }
});

test('resized with its wrap and then tiled, it is what was tiled and then resized', () => {
  const tile = noisePicture(24, 18, 6);
  const twice = createRaster(48, 36);
  twice.planes.forEach((plane, channel) => {
    for (let i = 0; i < plane.length; i++) {
      plane[i] = tile.planes[channel]![(Math.floor(i / 48) % 18) * 24 + (i % 24)]!;
    }
  });
  const wrap = { x: true, y: true };
  for (const [width, height] of [
    [10, 7],
    [24, 18],
    [31, 25],
  ] as const) {
    const once = resampleRaster(tile, { width, height, wrap });
    const all = resampleRaster(twice, { width: 2 * width, height: 2 * height, wrap });
    for (let y = 0; y < 2 * height; y++) {
      for (let x = 0; x < 2 * width; x++) {
        const expected = once.planes[0][(y % height) * width + (x % width)]!;
        expect(all.planes[0][y * 2 * width + x]).toBeCloseTo(expected, 5);
      }
    }
  }
});

test('enlarged, a hard edge rings by a tenth of its step at most', () => {
  const edge = mapped(20, 4, (x) => (x < 10 ? 0.1 : 0.6));
  const out = resampleRaster(edge, { width: 74, height: 9 });
  for (const value of out.planes[2]) {
    expect(value).toBeGreaterThanOrEqual(0.1 - 0.05 - 1e-6);
    expect(value).toBeLessThanOrEqual(0.6 + 0.05 + 1e-6);
  }
});

test('a window outside the picture is refused, unless the picture wraps', () => {
  const picture = noisePicture(20, 20, 7);
  const window = { x: -3, y: 0, width: 20, height: 20 };
  expect(() => resampleRaster(picture, { width: 9, height: 9, window })).toThrow(RangeError);
  expect(() =>
    resampleRaster(picture, { width: 9, height: 9, window, wrap: { x: true, y: false } }),
  ).not.toThrow();
  for (const width of [0, -1, 1.5, NaN]) {
    expect(() => resampleRaster(picture, { width, height: 9 })).toThrow(RangeError);
  }
});

test('a raster whose samples lie in a memory of odd length is resampled like any other', () => {
  const plain = createRaster(8, 8);
  for (const plane of plain.planes) for (let i = 0; i < plane.length; i++) plane[i] = i / 64;
  // As a part of a file that was read: 3 planes of 64 samples of 4 bytes, and 3 bytes behind them.
  const memory = new ArrayBuffer(3 * 64 * 4 + 3);
  const planes = plain.planes.map((plane, i) => {
    const there = new Float32Array(memory, i * 64 * 4, 64);
    there.set(plane);
    return there;
  }) as unknown as Raster['planes'];
  const size = { width: 7, height: 7 };
  expect(resampleRaster({ ...plain, planes }, size)).toEqual(resampleRaster(plain, size));
});

test('a band takes the kernel of the whole picture, whatever its size is rounded to', () => {
  const [width, height] = [6, 90];
  const picture = noisePicture(width, height, 5);
  const window = { x: 0, y: 0, width, height };
  const exact = resampleRaster(picture, { width, height: 60, window });
  // A step of 1.5, and one that is less by a few roundings.
  const rounded = { ...window, height: height * (1 - 2 ** -50) };
  const near = resampleRaster(picture, { width, height: 60, window: rounded });
  for (const [i, value] of exact.planes[0].entries()) {
    expect(near.planes[0][i]).toBeCloseTo(value, 5);
  }
});
