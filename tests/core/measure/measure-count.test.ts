import { drawTexture, drawWall, toLevel, toPhoto } from '@gaugerod/fixtures';
import { findCourse, measureCount, measureSpans, type Point, realMm } from '@gaugerod/core';
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
  const outcome = measureSpans(wall, [{ from, to, length }]);
  if (!outcome.ok) throw new Error(outcome.message);
  expect(outcome.value.confidence).toBeGreaterThanOrEqual(0.9);
  expect(outcome.value.confidence).toBeLessThan(1);
});

test('more courses than rows are refused as a number of courses', () => {
  expect(() => measureCount(wall, { courses: 99_999, reference })).toThrow(
    "expected a whole number from 1 to 260, the photo's height in pixels, for courses, got 99999",
  );
});

// Seen from the side: 25 px and 75 mm a course of the level wall, which is 3 mm a pixel.
const aside = drawWall({
  ...{ bond: 'english', coursePx: 25, width: 800, height: 619, seed: 91 },
  ...{ tiltX: 20 },
});

test('courses counted over the height of a photo taken at a slant are as high as once it is level', () => {
  const { raster, truth } = aside;
  const { width, height } = raster;
  const at = (y: number): number => toLevel(truth.rectification, raster, { x: width / 2, y }).y;
  const courses = (at(height) - at(0)) / 25;
  expect(Math.abs(courses - Math.round(courses))).toBeLessThan(0.1);
  const outcome = measureCount(raster, { courses: Math.round(courses), reference });
  if (!outcome.ok) throw new Error(outcome.message);
  const { mmPerPx, rectification, confidence, uncertaintyPercent } = outcome.value;
  expect(confidence).toBeGreaterThan(0.9);
  expect(rectification).not.toBeNull();
  for (const scale of [mmPerPx.x, mmPerPx.y]) {
    expect(100 * Math.abs(scale / 3 - 1)).toBeLessThan(uncertaintyPercent);
  }
});

test('courses counted on a slanted wall leave as much open along it as courses that were found', () => {
  // The lens is not known, and with it not how far the wall foreshortens: at 20 degrees, 30 % in
  // the focal length (k = 1) are some 1 % in the shape, of which bricks of a known format take part.
  const { raster, truth } = aside;
  const size = raster;
  const joints = truth.bedJoints.filter((y) => y > 60);
  const [top = NaN] = joints;
  const mark = (y: number): Point => toPhoto(truth.rectification, size, { x: 400, y });
  const named = findCourse('uk-metric');
  const span = [mark(top), mark(top + 400)] as const;
  const counted = measureCount(raster, { courses: 16, reference: named, span });
  if (!counted.ok) throw new Error(counted.message);
  const part = counted.value.budget.find(({ source }) => source === 'perspective');
  expect(part?.percent).toBeGreaterThan(0.4);
  const { mmPerPx, uncertaintyPercent } = counted.value;
  for (const scale of [mmPerPx.x, mmPerPx.y]) {
    expect(100 * Math.abs(scale / 3 - 1)).toBeLessThan(uncertaintyPercent);
  }
});
