import { calmTile, createRaster, cropRaster, findOdd, mendTile, type Raster } from '@gaugerod/core';
import { drawWall } from '@gaugerod/fixtures';
import { describe, expect, test } from 'vitest';
import { noisePicture } from '../../support/noise-picture.js';

// Light everywhere in a rectangle becomes so many times what it was.
function stain(
  raster: Raster,
  box: { x: number; y: number; width: number; height: number },
): Raster {
  const [red, green, blue] = raster.planes;
  const planes = [red.slice(), green.slice(), blue.slice()] as const;
  for (const [channel, plane] of planes.entries()) {
    for (let y = box.y; y < box.y + box.height; y++) {
      for (let x = box.x; x < box.x + box.width; x++) {
        plane[y * raster.width + x]! *= [0.1, 0.15, 0.3][channel]!;
      }
    }
  }
  return { ...raster, planes };
}

function meansOf({ planes }: Raster): number[] {
  return planes.map((plane) => plane.reduce((sum, light) => sum + light, 0) / plane.length);
}

const { raster: photo, truth } = drawWall({
  bond: 'stretcher',
  coursePx: 20,
  width: 560,
  height: 420,
  seed: 4242,
});
const joints = {
  axis: 'y',
  course: truth.coursePx,
  offset: truth.courseOffset,
  brick: truth.brickPx,
} as const;
const mended = mendTile(photo, { repeat: truth.repeat, joints });
if (!mended.ok) throw new Error(mended.message);
const { raster: wall, repeats, start } = mended.value;
const box = { x: 201, y: 160, width: 62, height: 40 };
const options = { repeats, joints: { ...joints, offset: joints.offset - start.y } };

describe('a stain on a wall', () => {
  const stained = stain(wall, box);
  const calmed = calmTile(stained, options);

  test('is replaced, and is told', () => {
    expect(findOdd(stained).length).toBeGreaterThan(0);
    expect(calmed.swapped.length).toBeGreaterThan(0);
    expect(calmed.swapped[0]?.way).toMatch(/darker|bluer/);
    // The middle of what was stained is as light as the wall is, give or take a brick.
    const middle = (180 * wall.width + 232) | 0;
    expect(calmed.raster.planes[0][middle]!).toBeGreaterThan(2 * stained.planes[0][middle]!);
  });

  test('leaves the rest as it was, and the light of all', () => {
    const gain =
      calmed.raster.planes[1][5 * wall.width + 5]! / stained.planes[1][5 * wall.width + 5]!;
    let changed = 0;
    for (let i = 0; i < wall.planes[1].length; i++) {
      const was = stained.planes[1][i]! * gain;
      if (Math.abs(calmed.raster.planes[1][i]! - was) > 1e-4) changed++;
    }
    expect(changed / wall.planes[1].length).toBeLessThan(0.15);
    for (const [channel, mean] of meansOf(calmed.raster).entries()) {
      expect(mean / meansOf(stained)[channel]!).toBeCloseTo(1, 3);
    }
  });

  test('is left, and told, where so much may not be replaced', () => {
    const strict = calmTile(stained, { ...options, most: 0.01 });
    expect(strict.swapped).toEqual([]);
    expect(strict.left.length).toBeGreaterThan(0);
    expect(strict.raster).toBe(stained);
  });
});

test('a stain over the corner, where four copies meet, is replaced too', () => {
  const { width, height } = wall;
  const stained = [
    { x: 0, y: 0 },
    { x: width - 30, y: 0 },
    { x: 0, y: height - 20 },
    { x: width - 30, y: height - 20 },
  ].reduce((raster, corner) => stain(raster, { ...corner, width: 30, height: 20 }), wall);
  const calmed = calmTile(stained, options);
  const redAt = ({ planes: [red] }: Raster): number => {
    let sum = 0;
    for (let y = -15; y < 15; y++) {
      for (let x = -20; x < 20; x++) {
        sum += red[((y + height) % height) * width + ((x + width) % width)]! / 1200;
      }
    }
    return sum;
  };
  // The stain leaves a tenth of the red; a brick may be half as light as another.
  expect(redAt(stained) / redAt(wall)).toBeLessThan(0.15);
  expect(redAt(calmed.raster) / redAt(wall)).toBeGreaterThan(0.5);
});

function laid(tile: Raster, across: number, down: number): Raster {
  const out = createRaster(across * tile.width, down * tile.height);
  for (const [channel, plane] of tile.planes.entries()) {
    const to = out.planes[channel]!;
    for (let y = 0, at = 0; y < out.height; y++) {
      const row = (y % tile.height) * tile.width;
      for (let x = 0; x < out.width; x++, at++) to[at] = plane[row + (x % tile.width)]!;
    }
  }
  return out;
}

test.each([
  [2, 1],
  [2, 2],
  [1, 3],
])('a stain in every one of %i x %i copies is replaced in all, and they stay alike', (x, y) => {
  const stained = stain(wall, box);
  const times = { x: (repeats.x ?? 0) * x, y: (repeats.y ?? 0) * y };
  const { raster, swapped, left } = calmTile(laid(stained, x, y), { ...options, repeats: times });
  expect(left).toEqual([]);
  expect(swapped.length).toBeGreaterThan(0);
  for (const place of swapped) expect(place.x < wall.width && place.y < wall.height).toBe(true);
  const { width, height } = wall;
  const first = cropRaster(raster, { x: 0, y: 0, width, height });
  expect(findOdd(first)).toEqual([]);
  let most = 0;
  for (const [channel, plane] of laid(first, x, y).planes.entries()) {
    const made = raster.planes[channel]!;
    for (let at = 0; at < plane.length; at++) {
      most = Math.max(most, Math.abs(plane[at]! - made[at]!));
    }
  }
  // Light runs from 0 to 1: half a step of sixteen bits.
  expect(most).toBeLessThan(0.5 / 65535);
});

test('a stain on grain is replaced by grain', () => {
  const grain = stain(noisePicture(200, 180, 3), { x: 90, y: 80, width: 24, height: 20 });
  const calmed = calmTile(grain, { repeats: { x: null, y: null }, joints: null });
  expect(calmed.swapped.length).toBeGreaterThan(0);
  expect(calmed.left).toEqual([]);
});

test('what is ordinary is left as it is', () => {
  const grain = noisePicture(128, 128, 3);
  const calmed = calmTile(grain, { repeats: { x: null, y: null }, joints: null });
  expect(calmed).toEqual({ raster: grain, swapped: [], left: [] });
});

test.each([0, -1, 101, NaN])('replacing %d per cent at most is no wish', (most) => {
  expect(() => calmTile(wall, { ...options, most })).toThrow(RangeError);
});
