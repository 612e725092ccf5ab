import { createRaster, cropRaster, inspectSeams, type Raster } from '@gaugerod/core';
import { drawWall } from '@gaugerod/fixtures';
import { expect, test } from 'vitest';

// Level light: what is left at a bed joint is the wall itself.
const { raster, truth } = drawWall({
  bond: 'english',
  coursePx: 24,
  width: 320,
  height: 300,
  falloff: 0,
  vignette: 0,
  seed: 31,
});

function rows(top: number, height: number): Raster {
  return cropRaster(raster, { x: 0, y: top, width: raster.width, height });
}

const [first = 0] = truth.bedJoints;
const top = Math.round(first);
// Ten courses: five times the two that English bond comes round after.
const bottom = Math.round(truth.bedJoints[10] ?? NaN);

function mirror(from: Raster): Raster {
  const { width, height } = from;
  const out = createRaster(width, 2 * height);
  for (let channel = 0; channel < 3; channel++) {
    for (let y = 0; y < height; y++) {
      const row = from.planes[channel]!.subarray(y * width, (y + 1) * width);
      out.planes[channel]!.set(row, y * width);
      out.planes[channel]!.set(row, (2 * height - 1 - y) * width);
    }
  }
  return out;
}

test('a wall cut from bed joint to bed joint repeats one above the other', () => {
  expect(inspectSeams(rows(top, bottom - top)).y.seamless).toBe(true);
});

test('a wall cut half way up a brick does not', () => {
  const { y } = inspectSeams(rows(top, bottom - top - 12));
  expect(y.seamScore).toBeGreaterThan(1);
  expect(y.seamless).toBe(false);
});

test('a wall that meets its mirror image is warned of', () => {
  const { warnings } = inspectSeams(mirror(rows(top + 10, 150)));
  expect(warnings.map(({ code }) => code)).toContain('mirrored');
});

test('a wall is no mirror of itself', () => {
  expect(inspectSeams(rows(top, bottom - top)).warnings).toEqual([]);
});

test('scores name the axis they are of', () => {
  const { x, y, verdict } = inspectSeams(rows(top, bottom - top));
  expect(y.seamless).toBe(true);
  // 320 px are no whole number of bricks: 24 px are 75 mm, so a brick of 225 mm is 72 px.
  expect(x.seamless).toBe(false);
  expect(verdict).toBe('repeats without a seam one above the other, but not side by side');
});

test('a picture of a few pixels is not called seamless without a word', () => {
  const { warnings } = inspectSeams(createRaster(1, 40));
  expect(warnings.map(({ code }) => code)).toContain('too-small-to-tell');
});

test('a step where nothing steps inside has a score that people can read', () => {
  const raster = createRaster(64, 64);
  for (const plane of raster.planes) plane.fill(1, 0, 64 * 32);
  expect(inspectSeams(raster).y.seamScore).toBeLessThanOrEqual(100);
  expect(inspectSeams(raster).y.seamless).toBe(false);
});
