import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import {
  findCourse,
  inspectPhoto,
  type MeasuredPhoto,
  measurePhoto,
  type MeasurePhotoOptions,
  type OwnReference,
  parseRealSize,
  type Point,
  realMm,
  toPhotoPoint,
} from '@gaugerod/core';
import { drawWall, encodePhoto } from '@gaugerod/fixtures';
import { afterAll, beforeAll, expect, test } from 'vitest';

// 25 px a course of 75 mm: 3 mm a pixel of the level wall. Seen from the left and from below.
const wall = drawWall({
  bond: 'english',
  coursePx: 25,
  width: 640,
  height: 480,
  rotation: 3,
  tiltX: 16,
  tiltY: -7,
  seed: 781,
});
const folder = mkdtempSync(join(tmpdir(), 'gaugerod-corners-'));
const photo = join(folder, 'wall.png');

beforeAll(async () => {
  writeFileSync(photo, await encodePhoto(wall.raster, { format: 'png' }));
});
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

// Where a point of the level wall is seen, marked to the tenth of a pixel.
function seen(x: number, y: number): Point {
  const at = toPhotoPoint(wall.truth.rectification, wall.raster, { x, y });
  return { x: Math.round(10 * at.x) / 10, y: Math.round(10 * at.y) / 10 };
}

// 400 x 300 px of the wall are 1200 x 900 mm.
const corners = [seen(120, 90), seen(520, 90), seen(520, 390), seen(120, 390)];

async function measured(options: MeasurePhotoOptions): Promise<MeasuredPhoto> {
  const outcome = await measurePhoto(photo, options);
  if (!outcome.ok) throw new Error(outcome.message);
  if (outcome.value.method === 'formats') throw new Error('nothing was measured');
  return outcome.value;
}

test.each([
  ['its size', { rectangleSize: parseRealSize('1200x900mm') }],
  ['the courses in its plane', { course: findCourse('uk-metric') }],
  // A slanting line of 3 by 4 times 60 px: 300 px, 900 mm (3-4-5).
  [
    'a span in its plane',
    { spans: [[seen(200, 100), seen(380, 340)]], lengths: [{ length: realMm(900) }] },
  ],
  // Eight courses of 75 mm on 200 px.
  [
    'courses counted in its plane',
    { course: findCourse('75mm'), courses: 8, spans: [[seen(300, 120), seen(300, 320)]] },
  ],
] as const)('the corners of a rectangle and %s say how big the wall is', async (_, known) => {
  const report = await measured({ corners, ...known });
  expect(report.method).toBe('rectangle');
  // What the drawing knows: 3 mm a pixel.
  const off = 100 * Math.abs(report.mmPerPx.y / 3 - 1);
  expect(off).toBeLessThan(0.5);
  expect(off).toBeLessThan(report.uncertaintyPercent);
  expect(report.rectification).not.toBeNull();
});

test("where another format is named than that of bricks in its plane, one's own are among the likelier", async () => {
  // Three courses long, as UK metric brick is (BS EN 771-1: 225 and 75 mm with joints); DF is four (DIN 4172).
  const yard: OwnReference = {
    ...{ id: 'yard-brick', name: 'yard brick', kind: 'brick', source: 'by tape' },
    ...{ course: realMm(76), tolerance: realMm(1), length: realMm(218), lengthTolerance: null },
    ...{ width: realMm(104), joint: realMm(10) },
  };
  const told = { corners, course: findCourse('de-df'), references: [yard] };
  const outcome = await measurePhoto(photo, told);
  if (!outcome.ok) throw new Error(outcome.message);
  const other = outcome.warnings.find(({ code }) => code === 'likely-other-format');
  expect(other?.message).toContain('likelier yard-brick');
});

test.each([
  ['without anything known in their plane', {}, 'what is known in their plane'],
  [
    'beside another reference',
    { rectangleSize: parseRealSize('1x1m'), course: findCourse('75mm') },
    'no other reference',
  ],
  [
    'with courses counted on nothing',
    { course: findCourse('75mm'), courses: 8 },
    'the span they were counted on',
  ],
  [
    'where the photo is to be left as it is',
    { rectangleSize: parseRealSize('1x1m'), straighten: 'none' },
    'straightened wholly',
  ],
] as const)('corners %s are refused before anything is read', async (_, more, why) => {
  await expect(measurePhoto(join(folder, 'no.png'), { corners, ...more })).rejects.toThrow(why);
});

test('a distance checks the size of a rectangle', async () => {
  // The camera has 1.1 times 640 px, and 3 mm a pixel: from 2.1 m, not from 6 m.
  const focal = realMm((1.1 * 640 * 43.267) / 800);
  const known = { corners, rectangleSize: parseRealSize('1200x900mm'), focal };
  for (const [distance, warnings] of [
    [2100, []],
    [6000, ['estimate-disagrees']],
  ] as const) {
    const outcome = await measurePhoto(photo, {
      ...known,
      distance: { length: realMm(distance) },
    });
    if (!outcome.ok) throw new Error(outcome.message);
    expect(outcome.value.method).toBe('rectangle');
    expect(outcome.warnings.map(({ code }) => code)).toEqual(warnings);
  }
});

test('an axis is told of courses between corners alone', async () => {
  await expect(
    measurePhoto(photo, { corners, rectangleSize: parseRealSize('1x1m'), axis: 'x' }),
  ).rejects.toThrow('courses to be found between the corners for axis');
});

test('a size without corners is refused', async () => {
  const rectangleSize = parseRealSize('1x1m');
  await expect(measurePhoto(photo, { rectangleSize })).rejects.toThrow(
    'the corners of that rectangle',
  );
});

test('a kept measurement may be used with less straightening, or none, and says what that costs', async () => {
  await measured({ corners, rectangleSize: parseRealSize('1200x900mm'), save: true });
  const full = await measured({});
  const level = await measured({ straighten: 'level' });
  const none = await measured({ straighten: 'none' });
  expect(full.rectification).not.toBeNull();
  expect(none.rectification).toBeNull();
  // Only turned: no perspective in the last row, and nothing stretched.
  const [a, b, , c, d, , g, h] = level.rectification?.matrix ?? [];
  expect([g, h]).toEqual([0, 0]);
  expect((a ?? 0) * (d ?? 0) - (b ?? 0) * (c ?? 0)).toBeCloseTo(1, 9);
  // The camera was turned by 3 degrees, and by what looking up and aside adds.
  expect(Math.abs((Math.atan2(c ?? 0, a ?? 1) * 180) / Math.PI)).toBeLessThan(8);
  expect(level.uncertaintyPercent).toBeGreaterThan(full.uncertaintyPercent);
  expect(none.uncertaintyPercent).toBeGreaterThan(full.uncertaintyPercent);
  expect(none.mmPerPx).toEqual(full.mmPerPx);
  // What is inspected is straightened too, unless that is not wanted.
  const [straight, askew] = await Promise.all([
    inspectPhoto(photo),
    inspectPhoto(photo, { straighten: 'none' }),
  ]);
  expect(straight).not.toEqual(askew);
});
