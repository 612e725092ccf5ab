import { cropRaster, createRaster, findCourse, measureCourses, type Raster } from '@gaugerod/core';
import { drawWall } from '@gaugerod/fixtures';
import { expect, test } from 'vitest';

const course = findCourse('75mm');

function pile(...parts: readonly Raster[]): Raster {
  const width = parts[0]?.width ?? 0;
  const out = createRaster(
    width,
    parts.reduce((sum, { height }) => sum + height, 0),
  );
  let at = 0;
  for (const part of parts) {
    for (const [channel, plane] of out.planes.entries()) plane.set(part.planes[channel]!, at);
    at += width * part.height;
  }
  return out;
}

const wall = drawWall({ width: 480, height: 480, coursePx: 40, bond: 'flemish', seed: 11 }).raster;
const piece = (y: number, height: number): Raster =>
  cropRaster(wall, { x: 0, y, width: 480, height });

const other = drawWall({ width: 480, height: 480, coursePx: 40, offsetY: 0, seed: 23 }).raster;

// Every part holds courses of 40 px; where they meet, one is cut short or drawn long.
test.each([
  [
    'a picture tiled by a height that is no whole number of courses',
    [piece(0, 333), piece(0, 333)],
  ],
  ['three of them', [piece(0, 333), piece(0, 333), piece(0, 333)]],
  ['a wall of two bonds', [piece(0, 460), other]],
])('%s: the course is that of the parts, never a mean over the edge', (_name, parts) => {
  const outcome = measureCourses(pile(...parts), course);
  if (!outcome.ok) throw new Error(outcome.message);
  const measured = outcome.value.lattice?.course ?? 0;
  expect(Math.abs(measured / 40 - 1)).toBeLessThan(0.006);
  const told = outcome.warnings.filter(({ code }) => code === 'irregular-courses');
  expect(told.map(({ message }) => message).join()).toContain('do not run through');
});

test('courses that run through are not said to be out of step', () => {
  const outcome = measureCourses(wall, course);
  const messages = outcome.ok ? outcome.warnings.map(({ message }) => message) : [];
  expect(messages.join()).not.toContain('run through');
});
