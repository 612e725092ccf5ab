import {
  type CourseAxis,
  findCourse,
  findCourses,
  measureCourses,
  type Rectification,
  toLevelPoint,
} from '@gaugerod/core';
import { drawWall, turnUpright } from '@gaugerod/fixtures';
import { expect, test } from 'vitest';

const level: Rectification = { matrix: [1, 0, 0, 0, 1, 0, 0, 0, 1], lens: 0 };

// Courses that go by for each pixel down and to the right, at a point of the photo.
function gradient(
  rectification: Rectification,
  size: Size,
  { axis = 'y', course }: { readonly axis?: CourseAxis; readonly course: number },
): [number, number] {
  const at = (x: number, y: number): number =>
    toLevelPoint(rectification, size, { x, y })[axis] / course;
  const [x, y] = [size.width / 2, size.height / 2];
  return [at(x + 0.5, y) - at(x - 0.5, y), at(x, y + 0.5) - at(x, y - 0.5)];
}

interface Size {
  readonly width: number;
  readonly height: number;
}

const views = [
  { name: 'turned 12 degrees', rotation: 12 },
  { name: 'turned the other way', rotation: -15 },
  { name: 'seen along a street', rotation: 1, tiltX: 12 },
  { name: 'seen from below', rotation: -2, tiltY: 11 },
  {
    name: 'turned, along and from below, through a bent lens',
    rotation: 4,
    tiltX: 7,
    tiltY: -8,
    lens: 0.02,
  },
] as const;

for (const { name, ...view } of views) {
  for (const bond of ['english', 'stretcher', 'flemish'] as const) {
    test(`${bond} bond ${name} is measured as it was drawn`, () => {
      const { raster, truth } = drawWall({
        bond,
        coursePx: 31,
        width: 900,
        height: 700,
        seed: 41,
        ...view,
      });
      const found = findCourses(raster);
      if (!found.ok) throw new Error(found.message);
      const [x, y] = gradient(found.value.rectification ?? level, raster, found.value);
      const [trueX, trueY] = gradient(truth.rectification, raster, { course: truth.coursePx });
      expect(Math.abs(Math.hypot(x, y) / Math.hypot(trueX, trueY) - 1)).toBeLessThan(0.003);
      const turned = Math.atan2(x, y) - Math.atan2(trueX, trueY);
      expect(Math.abs((turned * 180) / Math.PI)).toBeLessThan(0.1);
    });
  }
}

for (const { name, ...view } of views) {
  test(`a wall ${name} is measured as well where its courses stand upright`, () => {
    const drawn = drawWall({
      ...{ bond: 'flemish', coursePx: 31, width: 900, height: 700, seed: 43 },
      ...view,
    });
    const { raster, truth } = turnUpright(drawn);
    const found = findCourses(raster, { axis: 'x' });
    if (!found.ok) throw new Error(found.message);
    const { axis, rectification, course } = found.value;
    expect(axis).toBe('x');
    const [x, y] = gradient(rectification ?? level, raster, { axis: 'x', course });
    const [trueX, trueY] = gradient(truth.rectification, raster, {
      axis: 'x',
      course: truth.coursePx,
    });
    expect(Math.abs(Math.hypot(x, y) / Math.hypot(trueX, trueY) - 1)).toBeLessThan(0.003);
    const turned = Math.atan2(y, x) - Math.atan2(trueY, trueX);
    expect(Math.abs((turned * 180) / Math.PI)).toBeLessThan(0.1);
    // What comes of it counts across, too.
    expect(found.value.repeat.x).toBeCloseTo(2 * course, 6);
  });
}

test('upright boards are measured along the rows', () => {
  const { raster, truth } = drawWall({
    bond: 'stack',
    coursePx: 31,
    width: 700,
    height: 500,
    seed: 5,
  });
  const found = findCourses(raster, { axis: 'x' });
  if (!found.ok) throw new Error(found.message);
  expect(found.value.axis).toBe('x');
  expect(Math.abs(found.value.course / truth.brickPx - 1)).toBeLessThan(0.005);
});

test.each([6, 12])('a wall left %d degrees off square is no surer than it is square', (tiltY) => {
  const { raster, truth } = drawWall({
    ...{ bond: 'english', coursePx: 25, width: 640, height: 480, seed: 5, tiltY },
  });
  const outcome = measureCourses(raster, findCourse('uk-metric'), { straighten: 'none', slant: 5 });
  if (!outcome.ok) throw new Error(outcome.message);
  const { mmPerPx, uncertaintyPercent, budget } = outcome.value;
  // The camera is 1.1 x 640 px long: from the middle to a row 160 px off it, two thirds of the way,
  // courses grow by 2 x 160 / 704 tan(tilt), and that is left in.
  const there = (200 * 160 * Math.tan((tiltY * Math.PI) / 180)) / 704;
  expect(uncertaintyPercent).toBeGreaterThan(0.9 * there);
  expect(100 * Math.abs(mmPerPx.x / truth.mmPerPx.x - 1)).toBeLessThan(uncertaintyPercent);
  expect(budget.filter(({ source }) => source === 'perspective').length).toBe(1);
});
