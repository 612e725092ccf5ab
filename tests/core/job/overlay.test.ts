import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import {
  createRaster,
  findCourse,
  measurePhoto,
  type MeasurePhotoOptions,
  parseRealSize,
  type Point,
  type Raster,
  readPhoto,
} from '@gaugerod/core';
import { encodePhoto } from '@gaugerod/fixtures';
import { expect, test } from 'vitest';
import { tempFolder } from '../../support/temp-folder.js';

// 1000 px wide, so that it is drawn at its own size; plain, so that no joints are found in it and
// it lies 14 units of a thousandth of its width from the page's edges.
async function overlayOf(options: MeasurePhotoOptions): Promise<Raster> {
  const folder = tempFolder();
  const plain = createRaster(1000, 600);
  plain.planes.forEach((plane) => plane.fill(0.3));
  const photo = join(folder, 'wall.png');
  writeFileSync(photo, await encodePhoto(plain, { format: 'png' }));
  const overlay = join(folder, 'joints.png');
  const outcome = await measurePhoto(photo, { ...options, overlay });
  if (!outcome.ok) throw new Error(outcome.message);
  return (await readPhoto(overlay)).raster;
}

// Vermilion of Okabe and Ito's table, (213, 94, 0) in sRGB: red, and no blue.
function isMarked({ width, planes }: Raster, { x, y }: Point): boolean {
  const at = Math.floor(y + 14) * width + Math.floor(x + 14);
  return planes[0][at]! - planes[2][at]! > 0.3;
}

test('the corners that a measurement rests on are ringed and joined', async () => {
  const page = await overlayOf({
    corners: [
      { x: 200.5, y: 100.5 },
      { x: 800.5, y: 100.5 },
      { x: 800.5, y: 500.5 },
      { x: 200.5, y: 500.5 },
    ],
    rectangleSize: parseRealSize('1200x800mm'),
  });
  for (const { x, y } of [
    { x: 200, y: 100 },
    { x: 800, y: 100 },
    { x: 800, y: 500 },
    { x: 200, y: 500 },
  ]) {
    // A ring of 4 units, above and below the corner itself.
    expect(isMarked(page, { x, y: y - 4 })).toBe(true);
    expect(isMarked(page, { x, y: y + 4 })).toBe(true);
  }
  // A quarter along each side.
  expect(isMarked(page, { x: 350, y: 100 })).toBe(true);
  expect(isMarked(page, { x: 800, y: 200 })).toBe(true);
  expect(isMarked(page, { x: 350, y: 500 })).toBe(true);
  expect(isMarked(page, { x: 200, y: 200 })).toBe(true);
});

test.each([
  ['level', 'down', 'y'],
  ['upright', 'across', 'x'],
] as const)('courses that lie %s are counted %s the photo', async (_, __, axis) => {
  const page = await overlayOf({ course: findCourse('75mm'), courses: 10, axis });
  const side = axis === 'y' ? 600 : 1000;
  const middle = axis === 'y' ? 500 : 300;
  const place = (along: number, across: number): Point =>
    axis === 'y' ? { x: across, y: along } : { x: along, y: across };
  for (let k = 1; k < 10; k++) {
    const joint = (k * side) / 10;
    // The tick of each course is 10 units long, the line between them but two or three wide.
    expect(isMarked(page, place(joint, middle + 4)), `joint ${k}`).toBe(true);
    expect(isMarked(page, place(joint + side / 20, middle + 4))).toBe(false);
  }
});
