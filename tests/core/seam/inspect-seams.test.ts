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

// Wider than all that one joint may wander: 0.8 mm of 75 mm are a quarter of a pixel here.
test.each([2, 3, 4])('a wall cut %i px short of a course does not', (short) => {
  const { y } = inspectSeams(rows(top, bottom - top - short));
  expect(y.seamless).toBe(false);
  expect(y.courseOff).toBeLessThan(-short + 1.2);
});

// What gives a wrap away at once is not to say more than the score of all of it.
test('a wrap is without a seam where its score is 1 or less, whatever gives it away', () => {
  const said = Array.from({ length: 25 }, (_, short) =>
    inspectSeams(rows(top, bottom - top - short)),
  );
  for (const { x, y } of said) {
    expect([x.seamless, y.seamless]).toEqual([x.seamScore <= 1, y.seamScore <= 1]);
  }
  expect(new Set(said.map(({ y }) => y.seamless)).size).toBe(2);
});

// Every row left out before the wrap brings the next joint nearer by one.
test.each([1, 2, 3, 4, 6])('the misfit of a wall cut %i px shorter is that much less', (short) => {
  const whole = inspectSeams(rows(top, bottom - top)).y.courseOff ?? NaN;
  const cut = inspectSeams(rows(top, bottom - top - short)).y.courseOff ?? NaN;
  expect(cut - whole).toBeGreaterThan(-short - 0.5);
  expect(cut - whole).toBeLessThan(-short + 0.5);
});

test('bricks that come out half too short side by side are told, and those that come out are not', () => {
  // Stretcher bond comes round after a brick and its joint: 225 mm of 75 mm courses, 3 times 24 px.
  const drawn = drawWall({
    bond: 'stretcher',
    coursePx: 24,
    width: 620,
    height: 300,
    falloff: 0,
    vignette: 0,
    seed: 12,
  });
  const beside = (width: number): number =>
    Math.abs(
      inspectSeams(cropRaster(drawn.raster, { x: 10, y: 0, width, height: 300 })).x.courseOff ??
        NaN,
    );
  expect(drawn.truth.brickPx).toBeCloseTo(72, 1);
  expect(beside(8 * 72)).toBeLessThan(4);
  expect(beside(8 * 72 - 36)).toBeGreaterThan(30);
});

function lit(times: (share: number, channel: number) => number): Raster {
  const out = rows(top, bottom - top);
  for (const [channel, plane] of out.planes.entries()) {
    for (let at = 0; at < plane.length; at++) plane[at]! *= times(at / plane.length, channel);
  }
  return out;
}

test('a wall that grows lighter from top to foot does not, and it is told by how much', () => {
  const { y } = inspectSeams(lit((share) => 1 + 0.5 * share));
  expect(y.light).toBeGreaterThan(1);
  // L* grows with the cube root of light (CIE 15:2004, 8.2.1): 1.5 times the light of a wall of
  // L* 45 are (45 + 16) * (1.5^(1/3) - 1) = 8.8; a little less between the middles of two ends.
  expect(y.lightStep).toBeLessThan(-4);
  expect(y.lightStep).toBeGreaterThan(-12);
});

test('a wall that changes colour and not lightness does not', () => {
  // Red takes 0.2126 of luminance and green 0.7152 (Recommendation ITU-R BT.709).
  const { y } = inspectSeams(
    lit((share, channel) => {
      const more = 0.4 * (share - 0.5);
      return channel === 0 ? 1 + more : channel === 1 ? 1 - more * (0.2126 / 0.7152) : 1 - more;
    }),
  );
  expect(y.colour).toBeGreaterThan(1);
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
  const { warnings, verdict } = inspectSeams(createRaster(1, 40));
  expect(verdict).toBe('is too small to tell');
  expect(warnings.map(({ code }) => code)).toContain('too-small-to-tell');
});

test('a step where nothing steps inside has a score that people can read', () => {
  const raster = createRaster(64, 64);
  for (const plane of raster.planes) plane.fill(1, 0, 64 * 32);
  expect(inspectSeams(raster).y.seamScore).toBeLessThanOrEqual(100);
  expect(inspectSeams(raster).y.seamless).toBe(false);
});

// Every pixel four times: as large a seam on paper, so twice as many pixels and the same score.
test('a large tile is judged as the same tile is that is half as large', () => {
  const { raster: wall, truth: beds } = drawWall({
    bond: 'stretcher',
    coursePx: 40,
    width: 800,
    height: 860,
    falloff: 0,
    vignette: 0,
    seed: 8,
  });
  const [above = 0] = beds.bedJoints;
  const from = Math.round(above);
  const height = Math.round(beds.bedJoints[20] ?? NaN) - from - 6;
  const once = cropRaster(wall, { x: 0, y: from, width: 800, height });
  const twice = createRaster(1600, 2 * height);
  for (const [channel, plane] of twice.planes.entries()) {
    const [source] = [once.planes[channel]!];
    for (let at = 0; at < plane.length; at++) {
      plane[at] = source[(Math.floor(at / 1600) >> 1) * 800 + ((at % 1600) >> 1)]!;
    }
  }
  const [small, large] = [inspectSeams(once), inspectSeams(twice)];
  expect(large.verdict).toBe(small.verdict);
  expect(small.y.courseOff).toBeLessThan(-4);
  expect((large.y.courseOff ?? NaN) / (small.y.courseOff ?? NaN)).toBeCloseTo(2, 1);
});
