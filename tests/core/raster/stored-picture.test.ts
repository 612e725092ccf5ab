import fc from 'fast-check';
import { expect, test } from 'vitest';
import { cropRaster } from '../../../packages/core/src/raster/crop-raster.js';
import { linesKept, toLines } from '../../../packages/core/src/raster/line-source.js';
import {
  resampleLines,
  resampleRaster,
} from '../../../packages/core/src/raster/resample-raster.js';
import { toRows } from '../../../packages/core/src/raster/row-source.js';
import { shrinkRaster } from '../../../packages/core/src/raster/shrink-raster.js';
import {
  countClear,
  holdLight,
  type StoredPicture,
  toLightLines,
  toRaster,
} from '../../../packages/core/src/raster/stored-picture.js';
import { transposeRaster } from '../../../packages/core/src/raster/transpose-raster.js';
import { lookSmaller } from '../../../packages/core/src/seam/inspect/look-smaller.js';
import { takeLines } from '../../../packages/core/src/seam/inspect/take-lines.js';

const pictures = fc
  .record({
    width: fc.integer({ min: 1, max: 40 }),
    height: fc.integer({ min: 1, max: 60 }),
    channels: fc.constantFrom(3, 4),
    deep: fc.boolean(),
    seed: fc.integer({ min: 1, max: 1e6 }),
  })
  .map(({ width, height, channels, deep, seed }): StoredPicture => {
    const samples = new (deep ? Uint16Array : Uint8Array)(width * height * channels);
    let state = seed;
    for (let i = 0; i < samples.length; i++) samples[i] = state = (state * 16_807) % 2_147_483_647;
    return { width, height, samples };
  });

test('a line made when it is asked for is that of the picture brought to light at once', () => {
  fc.assert(
    fc.property(pictures, fc.array(fc.nat(1e4), { maxLength: 50 }), (stored, order) => {
      const { planes, width } = toRaster(stored);
      const lines = toLightLines(stored);
      for (const wish of order) {
        const y = wish % stored.height;
        for (const channel of [0, 1, 2] as const) {
          const row = planes[channel].subarray(y * width, (y + 1) * width);
          expect(lines.line(channel, y)).toEqual(row);
        }
      }
    }),
  );
});

test('a line stands until as many others as are kept were asked for', () => {
  const samples = Uint8Array.from({ length: 3 * 100 }, (_, i) => i % 256);
  const lines = toLightLines({ width: 1, height: 100, samples });
  const first = lines.line(0, 50);
  const [light] = first;
  for (let y = 0; y < linesKept - 1; y++) lines.line(0, y);
  expect(first[0]).toBe(light);
});

// Four rows that go on around their end are read in the order 3, 0, 1, 2, 3, 0 for some new rows.
test.each([1, 2, 3, 4, 5, 6])(
  'a picture of %i rows that goes on around its end is all numbers',
  (height) => {
    const samples = Uint8Array.from({ length: 3 * height }, (_, i) => 40 * i);
    const stored = { width: 1, height, samples };
    for (const times of [0.4, 0.9, 1.125, 1.5, 2.4]) {
      const size = { width: 1, height: Math.max(1, Math.round(height * times)) };
      const { planes } = resampleRaster(toRaster(stored), { ...size, wrap: { x: true, y: true } });
      expect(planes.every((plane) => plane.every(Number.isFinite))).toBe(true);
    }
  },
);

test('resampled line by line, a picture is the same to the last bit', () => {
  const sizes = fc.record({
    x: fc.double({ min: 0.1, max: 2.5, noNaN: true }),
    wrap: fc.boolean(),
  });
  fc.assert(
    fc.property(pictures, sizes, (stored, { x, wrap }) => {
      const width = Math.max(1, Math.round(stored.width * x));
      const height = Math.max(1, Math.round(stored.height * x));
      const how = { width, height, wrap: { x: wrap, y: wrap } };
      const lines = resampleLines(toLightLines(stored), how);
      expect(lines.planes).toEqual(resampleRaster(toRaster(stored), how).planes);
    }),
  );
});

test('held as bytes until all of it is asked for, a picture is looked at to the last bit as in light', () => {
  fc.assert(
    fc.property(pictures, fc.integer({ min: 1, max: 40 }), (stored, asked) => {
      const { width, height } = stored;
      const [held, lit] = [holdLight(stored), toRaster(stored)];
      const times = 1 + (asked % Math.min(width, height));
      const window = { x: width >> 1, y: height >> 2, width: 1, height: 1 + (height >> 1) };
      if (times > 1) expect(shrinkRaster(held, times)).toEqual(shrinkRaster(lit, times));
      expect(cropRaster(held, window)).toEqual(cropRaster(lit, window));
      for (const axis of ['x', 'y'] as const) {
        expect(takeLines(held, axis, 7)).toEqual(takeLines(lit, axis, 7));
      }
      const bytes = [held, lit].map((raster) =>
        Array.from(toRows(raster).rows(), (row) => [...row]),
      );
      expect(bytes[0]).toEqual(bytes[1]);
      expect(held).toEqual(lit);
    }),
    { numRuns: 50 },
  );
  const samples = Uint8Array.from({ length: 3 * 1700 * 3 }, (_, i) => (i * 7919) % 251);
  const wide = { width: 1700, height: 3, samples };
  expect(lookSmaller(holdLight(wide))).toEqual(lookSmaller(toRaster(wide)));
});

test('with rows and columns swapped, a picture that is held as bytes stays in bytes', () => {
  fc.assert(
    fc.property(pictures, (stored) => {
      const held = holdLight(stored);
      const turned = transposeRaster(held);
      // Twice, since it is only read so while neither is in light.
      expect(toLines(transposeRaster(turned)).line(1, 0)).toEqual(toLines(held).line(1, 0));
      for (const raster of [held, turned]) expect(toLines(raster).transposed).toBeDefined();
      expect(turned).toEqual(transposeRaster(toRaster(stored)));
      expect(toLines(held).transposed).toBeDefined();
    }),
    { numRuns: 50 },
  );
});

test('what is clear or half clear is counted, and lies on white', () => {
  // Black at alpha 0, 51 (a fifth) and 255: white, 0.8 of white, black; linear light.
  const samples = Uint8Array.of(0, 0, 0, 0, 0, 0, 0, 51, 0, 0, 0, 255);
  const stored = { width: 3, height: 1, samples };
  expect(countClear(stored)).toBe(2);
  const [white, grey, black] = toLightLines(stored).line(1, 0);
  expect(white).toBe(1);
  expect(grey).toBeCloseTo(0.8, 6);
  expect(black).toBe(0);
});
