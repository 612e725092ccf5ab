import {
  createRaster,
  cropRaster,
  type Homography,
  meanLight,
  multiplyHomographies,
  type Raster,
  type Rectification,
  straightenRaster,
  toLevelPoint,
  toPhotoPoint,
} from '@gaugerod/core';
import { describe, expect, test } from 'vitest';
import { encodeSrgb } from '../../../packages/core/src/colour/srgb.js';
import { noisePicture } from '../../support/noise-picture.js';

const width = 360;
const height = 240;

// About the middle of the photo: a turn in degrees, and how fast the far side falls away.
function look(turn: number, away: { x: number; y: number }, lens = 0): Rectification {
  const angle = (turn * Math.PI) / 180;
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const to: Homography = [1, 0, -width / 2, 0, 1, -height / 2, 0, 0, 1];
  const seen: Homography = [c, -s, 0, s, c, 0, away.x, away.y, 1];
  const back: Homography = [1, 0, width / 2, 0, 1, height / 2, 0, 0, 1];
  return { matrix: multiplyHomographies(back, multiplyHomographies(seen, to)), lens };
}

const level = look(0, { x: 0, y: 0 });
const steep = look(4, { x: -9e-4, y: 5e-4 }, 0.03);
// Shown by the photo in every view here.
const inside = { x: 110, y: 70, width: 140, height: 96 };

function drawn(light: (x: number, y: number) => number): Raster {
  const raster = createRaster(width, height);
  for (let y = 0, at = 0; y < height; y++) {
    for (let x = 0; x < width; x++, at++) {
      const value = light(x + 0.5, y + 0.5);
      for (const plane of raster.planes) plane[at] = value;
    }
  }
  return raster;
}

// The picture between its samples, by a cubic through four of them each way.
function between(plane: Float32Array, x: number, y: number): number {
  const [u, v] = [x - 0.5, y - 0.5];
  const [left, top] = [Math.floor(u), Math.floor(v)];
  const rows = [-1, 0, 1, 2].map((j) => {
    const row = (top + j) * width + left;
    return cubic(
      [-1, 0, 1, 2].map((i) => plane[row + i] ?? 0),
      u - left,
    );
  });
  return cubic(rows, v - top);
}

function cubic([a = 0, b = 0, c = 0, d = 0]: readonly number[], t: number): number {
  return b + 0.5 * t * (c - a + t * (2 * a - 5 * b + 4 * c - d + t * (3 * (b - c) + d - a)));
}

// The truth, slowly: 8 x 8 places in every new pixel, each looked up in the photo, and their mean.
function supersampled(raster: Raster, view: Rectification, factor: number): Float64Array {
  const columns = Math.round(inside.width * factor);
  const rows = Math.round(inside.height * factor);
  const out = new Float64Array(columns * rows);
  for (let i = 0; i < out.length; i++) {
    let sum = 0;
    for (let k = 0; k < 64; k++) {
      const u = (i % columns) + ((k % 8) + 0.5) / 8;
      const v = Math.floor(i / columns) + (Math.floor(k / 8) + 0.5) / 8;
      const place = { x: inside.x + u / factor, y: inside.y + v / factor };
      const { x, y } = toPhotoPoint(view, raster, place);
      sum += between(raster.planes[1], x, y);
    }
    out[i] = sum / 64;
  }
  return out;
}

const straight = (raster: Raster, view: Rectification, factor = 1): Raster =>
  straightenRaster(raster, view, { window: inside, factor: { x: factor, y: factor } });

describe('a photo straightened in one resampling', () => {
  test('is the photo itself where it was level', () => {
    const picture = noisePicture(width, height, 1);
    const all = { x: 0, y: 0, width, height };
    expect(straightenRaster(picture, level, { window: all }).planes).toEqual(picture.planes);
    expect(straight(picture, level).planes).toEqual(cropRaster(picture, inside).planes);
  });

  test.each([0.2, 0.37, 0.5, 0.8, 1, 1.7])('stays flat where it was flat, at %d', (factor) => {
    const flat = drawn(() => 0.3);
    for (const value of straight(flat, steep, factor).planes[1])
      expect(value).toBe(Math.fround(0.3));
  });

  test.each([0.15, 0.25, 0.4, 0.6])('keeps its light, at %d', (factor) => {
    const picture = noisePicture(width, height, 2);
    const truth = supersampled(picture, steep, factor);
    const wanted = truth.reduce((sum, value) => sum + value) / truth.length;
    expect(meanLight(straight(picture, steep, factor))[1] / wanted).toBeCloseTo(1, 2.9);
  });

  // How far a box of 8 x 8 places and a bell are apart on grain of a pixel or two, which is as
  // hard as pictures come; a wall's own grain is a tenth of that.
  test.each([
    [0.2, 0.02],
    [0.35, 0.02],
    [0.5, 0.02],
    [0.8, 0.03],
    [1.5, 0.02],
  ])('at %d is what a slow mean of many places says, to %d', (factor, most) => {
    const picture = noisePicture(width, height, 3);
    const truth = supersampled(picture, steep, factor);
    const got = straight(picture, steep, factor).planes[1];
    let sum = 0;
    for (const [i, value] of truth.entries()) sum += (value - (got[i] ?? 0)) ** 2;
    expect(Math.sqrt(sum / truth.length)).toBeLessThan(most);
  });

  test('does not flicker where fine stripes become too fine to print', () => {
    // Half the light of white is sRGB 188 (IEC 61966-2-1), where averaged numbers would say 128.
    const stripes = drawn((x) => Math.floor(x) % 2);
    const away = look(0, { x: 1.5e-3, y: 0 });
    for (const factor of [0.2, 0.3, 0.4]) {
      for (const light of straight(stripes, away, factor).planes[0]) {
        expect(Math.abs(encodeSrgb(light) - 188)).toBeLessThanOrEqual(4);
      }
    }
  });

  test('puts things where the geometry says, to a twentieth of a pixel', () => {
    // Round spots, drawn in the photo where toPhotoPoint takes their places on the level picture.
    const spots = [0.2, 0.5, 0.8].flatMap((u) =>
      [0.2, 0.5, 0.8].map((v) => ({
        x: inside.x + u * inside.width,
        y: inside.y + v * inside.height,
      })),
    );
    const picture = drawn((x, y) => {
      const at = toLevelPoint(steep, { width, height }, { x, y });
      return spots.reduce(
        (sum, spot) => sum + Math.exp(-((at.x - spot.x) ** 2 + (at.y - spot.y) ** 2) / 18),
        0,
      );
    });
    for (const factor of [0.4, 0.7, 1, 2]) {
      const got = straight(picture, steep, factor);
      for (const spot of spots) {
        const found = centreOf(
          got,
          (spot.x - inside.x) * factor,
          (spot.y - inside.y) * factor,
          12 * factor,
        );
        expect(Math.hypot(found.x, found.y)).toBeLessThan(0.05);
      }
    }
  });

  test('goes on with its border where the photo ends', () => {
    const flat = drawn(() => 0.3);
    const beyond = { x: -40, y: -30, width: 80, height: 60 };
    const out = straightenRaster(flat, steep, { window: beyond });
    expect(new Set(out.planes[2])).toEqual(new Set([Math.fround(0.3)]));
  });
});

// How far the light's centre lies from a place, looked for within a square about it.
function centreOf(raster: Raster, x: number, y: number, reach: number): { x: number; y: number } {
  let [sum, sumX, sumY] = [0, 0, 0];
  for (let v = Math.ceil(y - reach); v < y + reach; v++) {
    for (let u = Math.ceil(x - reach); u < x + reach; u++) {
      const light = raster.planes[0][v * raster.width + u] ?? 0;
      sum += light;
      sumX += light * (u + 0.5 - x);
      sumY += light * (v + 0.5 - y);
    }
  }
  return { x: sumX / sum, y: sumY / sum };
}

test('a size that makes no sense is refused, and so is a window across the horizon', () => {
  const picture = noisePicture(width, height, 4);
  for (const factor of [0, -1, NaN, Infinity]) {
    expect(() => straight(picture, level, factor)).toThrow(RangeError);
  }
  for (const size of [0, -3, NaN, Infinity]) {
    const window = { ...inside, width: size };
    expect(() => straightenRaster(picture, level, { window })).toThrow(RangeError);
  }
  const far = look(0, { x: 5e-3, y: 0 });
  const window = { x: -400, y: 0, width: 3000, height: 100 };
  expect(() => straightenRaster(picture, far, { window })).toThrow(/horizon/);
});
