import { findCourses, type Rectification, toLevelPoint, toPhotoPoint } from '@gaugerod/core';
import { drawWall } from '@gaugerod/fixtures';
import { expect, test } from 'vitest';

const level: Rectification = { matrix: [1, 0, 0, 0, 1, 0, 0, 0, 1], lens: 0 };

const [offsetX, offsetY] = [17, 11];
const size = { width: 1100, height: 800 } as const;

// Half-lap: every other course of stretchers, 225 mm with their joints, is shifted by half of one.
function missBy(x: number, course: number): number {
  const bricks = x / 225 - (course % 2 === 0 ? 0 : 0.5);
  return Math.abs(bricks - Math.round(bricks)) * 225;
}

const views = [
  { name: 'level', coursePx: 40 },
  { name: 'level and fine', coursePx: 13.3 },
  { name: 'turned', coursePx: 33, rotation: 7 },
  { name: 'seen along a street', coursePx: 36, rotation: 1, tiltX: 11 },
  { name: 'from below through a bent lens', coursePx: 30, tiltY: 9, lens: 0.02 },
] as const;

for (const { name, ...view } of views) {
  test(`perpends are listed where they were drawn: ${name}`, () => {
    const wall = { ...size, ...view, offsetX, offsetY, courseJitter: 0, seed: 7 };
    const { raster, truth } = drawWall({ bond: 'stretcher', ...wall });
    const found = findCourses(raster);
    if (!found.ok) throw new Error(found.message);
    const { perpends, rectification } = found.value.found;
    // As many as bricks lie in the photo, less some along its edges.
    const bricks = (size.width * size.height) / (truth.coursePx * truth.brickPx);
    expect(perpends.length).toBeGreaterThan(0.85 * bricks);
    expect(perpends.length).toBeLessThan(1.15 * bricks);
    const mm = truth.courseMm / truth.coursePx;
    const errors = perpends.map(({ at, from, to }) => {
      const point = { x: at, y: (from + to) / 2 };
      const photo = toPhotoPoint(rectification ?? level, size, point);
      const laid = toLevelPoint(truth.rectification, size, photo);
      const course = Math.floor((laid.y - offsetY) / truth.coursePx);
      return missBy((laid.x - offsetX) * mm, Math.abs(course)) / mm;
    });
    errors.sort((a, b) => a - b);
    const most = Math.max(1.5, 0.15 * view.coursePx);
    expect(errors[errors.length >> 1]).toBeLessThan(0.5 * most);
    expect(errors[Math.floor(0.99 * errors.length)]).toBeLessThan(most);
    // Each is as high as a course.
    for (const { from, to } of perpends) expect(to - from).toBeCloseTo(found.value.course, -1);
  });
}
