import { drawTexture, drawWall } from '@gaugerod/fixtures';
import { findCourse, measureCount, measureSpan, realMm } from '@gaugerod/core';
import { expect, test } from 'vitest';
import { plainBrick } from '../../support/plain-brick.js';

// 360 x 260 px; a course is 25 px high, as it was drawn, and 75 mm.
const { raster: wall } = drawWall(plainBrick);
const reference = findCourse('75mm');

function confidenceOf(raster: typeof wall, courses: number, height: number): number {
  const outcome = measureCount(raster, {
    courses,
    reference,
    span: [
      { x: 20, y: 10 },
      { x: 20, y: 10 + height },
    ],
  });
  if (!outcome.ok) throw new Error(outcome.message);
  return outcome.value.confidence;
}

test('a count that the picture bears out is all but certain', () => {
  const confidence = confidenceOf(wall, 8, 200);
  expect(confidence).toBeGreaterThanOrEqual(0.98);
  expect(confidence).toBeLessThan(1);
});

test('a count that the picture contradicts is doubted', () => {
  expect(confidenceOf(wall, 5, 200)).toBeLessThanOrEqual(0.3);
});

test('a count of which the picture shows nothing rests on the person alone', () => {
  const { raster } = drawTexture({ texture: 'gravel', width: 400, height: 300, seed: 3 });
  const confidence = confidenceOf(raster, 8, 200);
  expect(confidence).toBeGreaterThanOrEqual(0.9);
  expect(confidence).toBeLessThanOrEqual(0.95);
});

test('whoever marks a span may slip', () => {
  const [from, to, length] = [{ x: 10, y: 0 }, { x: 350, y: 0 }, realMm(1020)];
  const outcome = measureSpan(wall, { from, to, length });
  if (!outcome.ok) throw new Error(outcome.message);
  expect(outcome.value.confidence).toBeGreaterThanOrEqual(0.9);
  expect(outcome.value.confidence).toBeLessThan(1);
});

test('more courses than rows are refused as a number of courses', () => {
  expect(() => measureCount(wall, { courses: 99_999, reference })).toThrow(
    "expected a whole number from 1 to 260, the photo's height in pixels, for courses, got 99999",
  );
});
