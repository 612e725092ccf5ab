import { expect, test } from 'vitest';
import { findCourse, measureCount, measureCourses } from '@gaugerod/core';
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
