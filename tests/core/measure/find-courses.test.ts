import { expect, test } from 'vitest';
import { findCourses, type Raster } from '@gaugerod/core';
import { bondIds, drawTexture, drawWall, textureKinds } from '@gaugerod/fixtures';

function found(raster: Raster): Extract<ReturnType<typeof findCourses>, { ok: true }>['value'] {
  const outcome = findCourses(raster);
  if (!outcome.ok) throw new Error(outcome.message);
  return outcome.value;
}

// The truth is what the wall was drawn with.
test.each(bondIds)('a course of %s bond is one course, not two', (bond) => {
  const { raster, truth } = drawWall({ bond, coursePx: 23.7, width: 600, height: 480, seed: 11 });
  const { course, bond: name, brick } = found(raster);
  expect(Math.abs(course / truth.coursePx - 1)).toBeLessThan(0.005);
  // The trade's own bonds have names; where one cannot be told, none is given.
  expect([bond, null]).toContain(name);
  if (brick !== null) expect(Math.abs(brick / truth.brickPx - 1)).toBeLessThan(0.01);
});

test.each([6.3, 12.5, 47, 118, 240])('courses of %s px are found', (coursePx) => {
  const { raster } = drawWall({
    bond: 'english',
    coursePx,
    width: Math.round(Math.max(400, 8 * coursePx)),
    height: Math.round(Math.max(300, 6.4 * coursePx)),
    seed: 3,
    // Laid true: six courses as a bricklayer lays them are themselves 1 % off.
    courseJitter: 0,
  });
  expect(Math.abs(found(raster).course / coursePx - 1)).toBeLessThan(0.01);
});

test('paler headers do not make two courses one', () => {
  const { raster } = drawWall({ bond: 'english', coursePx: 20, paleHeaders: 0.5, seed: 5 });
  expect(found(raster).course).toBeCloseTo(20, 0);
});

test('dark mortar is found as well as light', () => {
  const { raster } = drawWall({ brickColour: 'buff', mortar: 'black', coursePx: 30, seed: 8 });
  expect(Math.abs(found(raster).course / 30 - 1)).toBeLessThan(0.005);
});

test('mortar as light as its bricks is found by its colour', () => {
  const { raster } = drawWall({ brickColour: 'stock', mortar: 'grey', coursePx: 30, seed: 8 });
  expect(Math.abs(found(raster).course / 30 - 1)).toBeLessThan(0.005);
});

test('a wall with half the light has the same course', () => {
  const { raster } = drawWall({ coursePx: 31, seed: 21 });
  const dim = { ...raster, planes: raster.planes.map((plane) => plane.map((v) => v / 2)) };
  const [red, green, blue] = dim.planes;
  if (!red || !green || !blue) throw new Error('three planes');
  const { course } = found({ ...raster, planes: [red, green, blue] });
  expect(course).toBeCloseTo(found(raster).course, 2);
});

test.each(textureKinds)('%s has no courses, and is refused, not guessed', (texture) => {
  const { raster } = drawTexture({ texture, width: 400, height: 400, seed: 77 });
  expect(findCourses(raster)).toMatchObject({ ok: false, code: 'no-courses' });
});

test('a picture too small to show three joints is refused', () => {
  const { raster } = drawWall({ coursePx: 40, width: 30, height: 9, seed: 2 });
  expect(findCourses(raster)).toMatchObject({ ok: false, code: 'no-courses' });
});

test.each([
  [4001, 1],
  [1, 4001],
  [4001, 2],
])('a grey picture of %d x %d px is refused, however narrow', (width, height) => {
  const plane = new Float32Array(width * height).fill(0.5);
  const raster = { width, height, planes: [plane, plane, plane] } as const;
  expect(findCourses(raster)).toMatchObject({ ok: false, code: 'no-courses' });
  expect(findCourses(raster, { axis: 'x' })).toMatchObject({ ok: false, code: 'no-courses' });
});

test.each(['light', 'dark'] as const)('the bed joint is the middle of its %s mortar', (mortar) => {
  for (const coursePx of [12, 30]) {
    const { raster, truth } = drawWall({ bond: 'english', mortar, coursePx, width: 500, seed: 5 });
    const apart = (found(raster).courseOffset - truth.courseOffset) / truth.coursePx;
    expect(Math.abs(apart - Math.round(apart))).toBeLessThan(0.03);
  }
});

test('headers between stretchers are not taken for header bond', () => {
  const wall = { bond: 'english', coursePx: 12, width: 800, height: 600, seed: 5 } as const;
  const { raster, truth } = drawWall({ ...wall, mortar: 'light' });
  const { bond, repeat } = found(raster);
  expect(bond).toBe('english');
  expect(Math.abs((repeat.x ?? 0) / truth.repeat.x - 1)).toBeLessThan(0.01);
});

test('of few courses it warns, and does not promise 1 %', () => {
  const { raster } = drawWall({ coursePx: 120, width: 700, height: 450, seed: 12 });
  const outcome = findCourses(raster);
  if (!outcome.ok) throw new Error(outcome.message);
  expect(outcome.warnings.map(({ code }) => code)).toContain('few-courses');
  expect(outcome.value.confidence).toBeLessThan(0.97);
});
