import { cropRaster, extendTile, type Raster } from '@gaugerod/core';
import { drawWall, type WallOptions } from '@gaugerod/fixtures';
import { expect, test } from 'vitest';
import { latticeOf } from '../../support/lattice-of.js';

// IEC 61966-2-1, 8 bits.
function level(light: number): number {
  const shown = Math.min(1, Math.max(0, light));
  return 255 * (shown <= 0.0031308 ? 12.92 * shown : 1.055 * shown ** (1 / 2.4) - 0.055);
}

// Levels of red, green and blue over all rows that are chosen.
function meanLevels({ width, planes }: Raster, chosen: (row: number) => boolean): number[] {
  return planes.map((plane) => {
    const levels = Array.from(
      plane.filter((_, i) => chosen(Math.floor(i / width))),
      level,
    );
    return levels.reduce((sum, value) => sum + value, 0) / levels.length;
  });
}

// How much more blue than red the bluest half per cent has at least.
function bluest({ planes: [red, , blue] }: Raster): number {
  const steps = Float64Array.from(red, (light, i) => level(blue[i]!) - level(light)).sort();
  return steps[Math.floor(0.995 * steps.length)]!;
}

// Evening light on its right half.
const tint = [0.95, 0.8, 0.6];

interface Joined {
  readonly whole: Raster;
  readonly left: Raster;
  readonly tile: Raster;
  /** Courses in the tile. */
  readonly courses: number;
  readonly bedJoints: readonly number[];
  readonly coursePx: number;
}

// Join two halves of a wall, bed joints of the right one said to lie so far from where they do.
function joinHalves(options: WallOptions, off: number): Joined {
  const size = { coursePx: 16, width: 400, height: 210, falloff: 0, vignette: 0, exposure: 0.9 };
  const { raster: whole, truth } = drawWall({ ...size, ...options });
  const half = { y: 0, width: 200, height: 210 };
  const left = cropRaster(whole, { ...half, x: 0 });
  const right = cropRaster(whole, { ...half, x: 200 });
  for (const [channel, plane] of right.planes.entries()) {
    for (const i of plane.keys()) plane[i]! *= tint[channel]!;
  }
  const { coursePx, courseOffset, repeat, bedJoints } = truth;
  const lattice = latticeOf(truth);
  const sources = [
    { raster: left, lattice },
    { raster: right, lattice: { ...lattice, courseOffset: courseOffset + off } },
  ];
  const repeats = { x: Math.ceil(500 / repeat.x), y: Math.ceil(400 / repeat.y) };
  const made = extendTile(sources, {
    width: Math.round(repeats.x * repeat.x),
    height: Math.round(repeats.y * repeat.y),
    repeats,
  });
  if (!made.ok) throw new Error(made.message);
  const courses = Math.round((repeats.y * repeat.y) / coursePx);
  return { whole, left, tile: made.value.raster, courses, bedJoints, coursePx };
}

test.each([-1, 0, 1])(
  'mortar and bricks of a tinted half come out as the first has them, beds %s px off',
  (off) => {
    const { left, tile, courses, bedJoints, coursePx } = joinHalves({ seed: 41 }, off);
    const inPhoto = (row: number): number =>
      Math.min(...bedJoints.map((bed) => Math.abs(row + 0.5 - bed))) / coursePx;
    const inTile = (row: number): number => {
      const place = ((row + 0.5) * courses) / tile.height;
      return Math.abs(place - Math.round(place));
    };
    // A joint is 10 mm of 75: 0.067 of a course either way. Laid beds stray by part of a pixel.
    const mortar = meanLevels(tile, (row) => inTile(row) < 0.04);
    for (const [channel, mean] of meanLevels(left, (row) => inPhoto(row) < 0.04).entries()) {
      expect(Math.abs(mortar[channel]! - mean)).toBeLessThan(6);
    }
    const bricks = meanLevels(tile, (row) => inTile(row) > 0.2);
    for (const [channel, mean] of meanLevels(left, (row) => inPhoto(row) > 0.2).entries()) {
      expect(Math.abs(bricks[channel]! - mean)).toBeLessThan(3);
    }
  },
);

// Deep joints under a high sun: a dark line above, pale mortar below.
const deep = { recessMm: 10, sun: 0.8, lightAngle: 0, courseJitter: 0.4 };

test.each([
  ['stretcher', -1],
  ['stretcher', -2],
  ['flemish', -1],
  ['flemish', -2],
] as const)('no joint turns blue in %s bond where the shadow is taken for the bed', (bond, off) => {
  const { whole, tile } = joinHalves({ ...deep, bond, seed: 41 }, off);
  // Before the tint was laid on.
  expect(bluest(tile)).toBeLessThan(bluest(whole) + 2);
});
