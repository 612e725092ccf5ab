import { createRaster, findCourse, measureCourses, type Raster } from '@gaugerod/core';
import { drawWall, sampleWalls, seedRanges, type WallOptions } from '@gaugerod/fixtures';
import { expect, test } from 'vitest';

const course = findCourse('75mm');

// A wall whose joints begin at its top edge, so that another may stand under or over it.
const draw = (options: WallOptions): Raster =>
  drawWall({ width: 640, offsetY: 0, ...options }).raster;

function pile(upper: Raster, lower: Raster): Raster {
  const out = createRaster(upper.width, upper.height + lower.height);
  for (const [channel, plane] of out.planes.entries()) {
    plane.set(upper.planes[channel]!);
    plane.set(lower.planes[channel]!, upper.width * upper.height);
  }
  return out;
}

function pair(left: Raster, right: Raster): Raster {
  const out = createRaster(left.width + right.width, left.height);
  for (const [channel, plane] of out.planes.entries()) {
    for (let y = 0; y < out.height; y++) {
      const row = ({ planes, width }: Raster): Float32Array =>
        planes[channel]!.subarray(y * width, (y + 1) * width);
      plane.set(row(left), y * out.width);
      plane.set(row(right), y * out.width + left.width);
    }
  }
  return out;
}

const blocks = { bond: 'stack', format: 'de-2df', brickColour: 'buff', mortar: 'dark' } as const;

test.each([
  ['block over brick', { ...blocks, coursePx: 60, height: 300 }, { coursePx: 25, height: 300 }],
  ['brick over block', { coursePx: 25, height: 300 }, { ...blocks, coursePx: 60, height: 420 }],
  ['two bricks', { coursePx: 30, height: 300, bond: 'flemish' }, { coursePx: 27, height: 270 }],
  ['two bricks nearly alike', { coursePx: 30, height: 300 }, { coursePx: 28, height: 280 }],
])('%s: one of them is measured, never a mean of both', (_name, upper, lower) => {
  const wall = pile(draw({ seed: 5, ...upper }), draw({ seed: 6, ...lower }));
  const outcome = measureCourses(wall, course);
  if (!outcome.ok) throw new Error(outcome.message);
  const measured = outcome.value.lattice?.course ?? 0;
  const errors = [upper, lower].map(({ coursePx }) => Math.abs(measured / coursePx - 1));
  expect(Math.min(...errors)).toBeLessThan(0.01);
  const [isUpper] = errors.map((error) => error < 0.01);
  const warning = outcome.warnings.find(({ code }) => code === 'two-works');
  expect(warning?.message).toMatch(isUpper ? /px high above y = / : /px high below y = /);
  // Where the one meets the other.
  const edge = Number(/ y = (\d+) and /.exec(warning?.message ?? '')?.[1]);
  expect(Math.abs(edge - upper.height)).toBeLessThan(
    1.5 * Math.max(upper.coursePx, lower.coursePx),
  );
  // What the measurement rests on lies on one side of it.
  const { beds, leftOut } = outcome.value.joints;
  const isInside = (at: number): boolean => (isUpper ? at < edge + 5 : at > edge - 5);
  expect(beds.every(({ at }) => isInside(at))).toBe(true);
  expect(leftOut.length).toBeGreaterThan(0);
});

test.each([
  [
    'twice as high above',
    { coursePx: 40, bond: 'flemish', height: 700 },
    { coursePx: 20, height: 700 },
  ],
  [
    'twice as high below',
    { coursePx: 20, height: 600 },
    { coursePx: 40, bond: 'english', height: 700 },
  ],
  [
    'blocks twice as high above',
    { ...blocks, coursePx: 50, height: 300 },
    { coursePx: 25, height: 300 },
  ],
  [
    'blocks three courses high above',
    { ...blocks, coursePx: 75, height: 450 },
    { coursePx: 25, height: 300 },
  ],
  [
    'blocks three courses high below',
    { coursePx: 25, height: 300 },
    { ...blocks, coursePx: 75, height: 450 },
  ],
  [
    'a few such blocks above',
    { ...blocks, coursePx: 75, height: 300 },
    { coursePx: 25, height: 500 },
  ],
] as const)(
  'courses that are a whole number of the others, %s, are two works',
  (_name, upper, lower) => {
    // One course height fits all the joints of both; that of either is right, of all is not.
    for (const seed of [5, 17]) {
      const wall = pile(draw({ seed, ...upper }), draw({ seed: seed + 1, ...lower }));
      const outcome = measureCourses(wall, course);
      if (!outcome.ok) {
        expect(outcome.message).toContain('the wall is of two works');
        continue;
      }
      const measured = outcome.value.lattice?.course ?? 0;
      const errors = [upper, lower].map(({ coursePx }) => Math.abs(measured / coursePx - 1));
      expect(Math.min(...errors)).toBeLessThan(0.01);
      const warning = outcome.warnings.find(({ code }) => code === 'two-works');
      const edge = Number(/ y = (\d+) and /.exec(warning?.message ?? '')?.[1]);
      const higher = Math.max(upper.coursePx, lower.coursePx);
      expect(Math.abs(edge - upper.height)).toBeLessThan(1.5 * higher);
    }
  },
);

test('courses of a half the height that are out of step with the others are a work of their own', () => {
  // Neither begins with a joint.
  const upper = drawWall({ bond: 'flemish', coursePx: 40, width: 600, height: 700, seed: 21 });
  const lower = drawWall({ bond: 'english', coursePx: 20, width: 600, height: 700, seed: 24 });
  const outcome = measureCourses(pile(upper.raster, lower.raster), course);
  if (!outcome.ok) throw new Error(outcome.message);
  const warning = outcome.warnings.find(({ code }) => code === 'two-works');
  const numbers = (warning?.message ?? '').match(/[\d.]+/g) ?? [];
  const [one = 0, edge = 0, other = 0] = numbers.map(Number);
  expect(Math.abs(Math.max(one, other) / 40 - 1)).toBeLessThan(0.01);
  expect(Math.abs(Math.min(one, other) / 20 - 1)).toBeLessThan(0.01);
  expect(Math.abs(edge - 700)).toBeLessThan(40);
  expect(Math.abs((outcome.value.lattice?.course ?? 0) / one - 1)).toBeLessThan(0.01);
});

test('two works side by side are refused, and both are named', () => {
  const wall = pair(
    draw({ coursePx: 30, width: 350, height: 600, seed: 5 }),
    draw({ coursePx: 25, width: 350, height: 600, seed: 7 }),
  );
  const outcome = measureCourses(wall, course);
  expect(outcome).toMatchObject({ ok: false, code: 'no-courses' });
  const { message = '' } = outcome.ok ? {} : outcome;
  const [left = 0, right = 0] = [...message.matchAll(/([\d.]+) px/g)].map(([, px]) => Number(px));
  expect(Math.abs(left / 30 - 1)).toBeLessThan(0.01);
  expect(Math.abs(right / 25 - 1)).toBeLessThan(0.01);
  expect(message).toContain('about x = 350');
});

test('walls of one work are never said to be of two', async () => {
  for (const sample of sampleWalls(seedRanges.test + 500, 11)) {
    const { raster } = await sample.draw();
    const outcome = measureCourses(raster, course);
    const codes = outcome.ok ? outcome.warnings.map(({ code }) => code) : [];
    expect(codes).not.toContain('two-works');
  }
});
