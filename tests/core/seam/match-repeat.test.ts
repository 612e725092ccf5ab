import { createRaster, matchRepeat, type Raster } from '@gaugerod/core';
import { describe, expect, test } from 'vitest';
import { noisePicture } from '../../support/noise-picture.js';

// Grain that repeats after so many pixels along x, by construction; along y it never does.
function repeating(width: number, period: number): Raster {
  const grain = noisePicture(period, 96, 5);
  const raster = createRaster(width, 96);
  for (let channel = 0; channel < 3; channel++) {
    for (let y = 0; y < 96; y++) {
      for (let x = 0; x < width; x++) {
        const from = grain.planes[channel]![y * period + (x % period)]!;
        raster.planes[channel]![y * width + x] = from;
      }
    }
  }
  return raster;
}

describe('a repeat is held against the picture', () => {
  const raster = repeating(300, 50);

  test('one measured 0.4 % too long is put right', () => {
    const { x } = matchRepeat(raster, { x: 50.2, y: null });
    expect(x.repeat).toBeCloseTo(50, 1);
    expect(x.period).toBeNull();
  });

  test('one that lays unlike on unlike is dropped, and the shift that fits is found', () => {
    const { x } = matchRepeat(raster, { x: 58, y: null });
    expect(x.repeat).toBeNull();
    // Whole repeats between 74 and 90 % of 300 px: 250 alone.
    expect(x.period).toBe(250);
  });

  test('half a repeat is taken twice', () => {
    const { x } = matchRepeat(raster, { x: 25, y: null });
    expect(x.repeat).toBeCloseTo(50, 1);
  });

  test('where nothing repeats, a shift is still named', () => {
    const { y } = matchRepeat(raster, { x: 50, y: null });
    expect(y.repeat).toBeNull();
    expect(y.period).toBeGreaterThanOrEqual(Math.floor(0.74 * 96));
    expect(y.period).toBeLessThanOrEqual(Math.ceil(0.9 * 96));
  });
});

test('ends that meet by chance are known by the rest of the picture', () => {
  // Like itself after 200 px and, at 300 px in all, after the other 100 too; at 330 px not.
  const unknown = { x: null, y: null };
  expect(matchRepeat(repeating(300, 50), unknown).x.refutesLength).toBe(false);
  expect(matchRepeat(repeating(330, 50), unknown).x.refutesLength).toBe(true);
  // Grain that never repeats has nothing to say.
  expect(matchRepeat(noisePicture(300, 96, 9), unknown).x.refutesLength).toBe(false);
});
