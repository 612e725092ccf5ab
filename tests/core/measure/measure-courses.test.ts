import { expect, test } from 'vitest';
import {
  findCourse,
  measureCount,
  measureCourses,
  ownCourses,
  type OwnReference,
  realMm,
} from '@gaugerod/core';
import { drawWall } from '@gaugerod/fixtures';

test('eight courses of 62.5 px and 75 mm are 1.2 mm to the pixel', () => {
  // 4 courses of UK metric brick are 300 mm (BS EN 771-1 work size 65 mm, 10 mm joint).
  const { raster } = drawWall({ coursePx: 62.5, width: 700, height: 560, seed: 4 });
  const outcome = measureCourses(raster, findCourse('uk-metric'));
  if (!outcome.ok) throw new Error(outcome.message);
  expect(Math.abs(outcome.value.mmPerPx.y / 1.2 - 1)).toBeLessThan(0.01);
  expect(outcome.value.mmPerPx.x).toBe(outcome.value.mmPerPx.y);
  expect(outcome.value.lattice?.bond).toBe('stretcher');
});

test('bricks too long for the named format bring a warning', () => {
  // DIN 4172: DF is 250 x 62.5 mm with joints, 4 to 1; UK metric is 225 x 75, 3 to 1.
  const { raster } = drawWall({ format: 'de-df', coursePx: 25, seed: 6 });
  const outcome = measureCourses(raster, findCourse('uk-metric'));
  if (!outcome.ok) throw new Error(outcome.message);
  const other = outcome.warnings.find(({ code }) => code === 'likely-other-format');
  expect(other?.message).toContain('de-df');
  // Course for course it is 20 % out: as little believed as spans that disagree.
  expect(outcome.value.confidence).toBeLessThanOrEqual(0.3);
});

// Four courses long too, and of no catalogue: as the works measured it.
const chimney: OwnReference = {
  ...{ id: 'chimney-brick', name: 'chimney brick', kind: 'brick', source: 'by tape' },
  ...{ course: realMm(50), tolerance: realMm(0.5), length: realMm(192), lengthTolerance: null },
  ...{ width: realMm(92), joint: realMm(8) },
};

test("bricks of one's own format are not doubted for being of no catalogue", () => {
  const { raster } = drawWall({ format: 'de-df', coursePx: 25, seed: 6 });
  const outcome = measureCourses(raster, findCourse('chimney-brick', 'course', [chimney]));
  if (!outcome.ok) throw new Error(outcome.message);
  expect(outcome.warnings.map(({ code }) => code)).not.toContain('likely-other-format');
  expect(outcome.value.confidence).toBeGreaterThan(0.7);
  expect(outcome.value.reference.laidDry).toBeUndefined();
  const boards = { ...chimney, kind: 'timber', width: null, joint: null } as const;
  const boarded = measureCourses(raster, findCourse('chimney-brick', 'course', [boards]));
  if (!boarded.ok) throw new Error(boarded.message);
  expect(boarded.value.reference).toMatchObject({ id: 'chimney-brick', laidDry: true });
  // Named as what they are not, they are still doubted: 100 mm to a course of 50 mm is two to one.
  const short = { ...chimney, length: realMm(92), width: null };
  const doubted = measureCourses(raster, findCourse('chimney-brick', 'course', [short]));
  if (!doubted.ok) throw new Error(doubted.message);
  expect(doubted.warnings.map(({ code }) => code)).toContain('likely-other-format');
});

test("where another format is named than the bricks', one's own are named among the likelier", () => {
  const { raster } = drawWall({ format: 'de-df', coursePx: 25, seed: 6 });
  const outcome = measureCourses(raster, findCourse('uk-metric'), { own: ownCourses([chimney]) });
  if (!outcome.ok) throw new Error(outcome.message);
  const other = outcome.warnings.find(({ code }) => code === 'likely-other-format');
  expect(other?.message).toMatch(/likelier (chimney-brick, de-df|de-df, chimney-brick)/);
});

test("a count of courses of another format than the one named is doubted as well, and one's own named", () => {
  const { raster, truth } = drawWall({ format: 'de-df', coursePx: 25, height: 500, seed: 6 });
  const [x, top] = [50, truth.bedJoints[1] ?? NaN];
  const counted = {
    courses: 12,
    reference: findCourse('uk-metric'),
    span: [
      { x, y: top },
      { x, y: top + 300 },
    ],
  } as const;
  const outcome = measureCount(raster, counted);
  if (!outcome.ok) throw new Error(outcome.message);
  expect(outcome.value.joints).not.toBeNull();
  expect(outcome.warnings.map(({ code }) => code)).toContain('likely-other-format');
  expect(outcome.value.confidence).toBeLessThanOrEqual(0.3);
  const { warnings } = measureCount(raster, counted, {
    own: ownCourses([chimney]),
  }) as typeof outcome;
  expect(warnings.map(({ message }) => message).join()).toContain('likelier chimney-brick, de-df');
});

test('level courses that are looked for upright are no sure thing', () => {
  // Perpends of an English wall stand a quarter of a brick apart, which is no course of 75 mm.
  const { raster, truth } = drawWall({
    ...{ bond: 'english', coursePx: 25, width: 640, height: 480, seed: 781 },
  });
  const outcome = measureCourses(raster, findCourse('uk-metric'), { axis: 'x' });
  if (!outcome.ok) return;
  const off = Math.abs(outcome.value.mmPerPx.x / truth.mmPerPx.x - 1);
  expect(off < 0.01 || outcome.value.confidence <= 0.3).toBe(true);
});

test('courses counted over a span give their height, found or not', () => {
  const { raster, truth } = drawWall({ coursePx: 40, width: 500, height: 500, seed: 9 });
  const top = truth.courseOffset;
  const outcome = measureCount(raster, {
    courses: 10,
    reference: findCourse('uk-metric'),
    span: [
      { x: 50, y: top },
      { x: 50, y: top + 400 },
    ],
  });
  if (!outcome.ok) throw new Error(outcome.message);
  // 75 mm over 40 px.
  expect(Math.abs(outcome.value.mmPerPx.y / 1.875 - 1)).toBeLessThan(0.01);
  expect(outcome.value.method).toBe('count');
});

test('no courses cannot be counted', () => {
  const { raster } = drawWall({ width: 64, height: 64, coursePx: 16 });
  const reference = findCourse('uk-metric');
  expect(() => measureCount(raster, { courses: 0, reference })).toThrow(RangeError);
});
