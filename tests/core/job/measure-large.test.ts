import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import {
  dressDrawing,
  fillPhoto,
  findCourse,
  findScale,
  measurePhoto,
  parsePaintKey,
  printMm,
} from '@gaugerod/core';
import { drawWall, encodePhoto, toLevel, type WallOptions } from '@gaugerod/fixtures';
import { expect, test } from 'vitest';
import { tempFolder } from '../../support/temp-folder.js';

const large = { bond: 'english', width: 3300, height: 2200, seed: 88 } as const;

async function measureDrawn(
  options: WallOptions,
): Promise<[ReturnType<typeof drawWall>['truth'], Awaited<ReturnType<typeof measureFile>>]> {
  const { raster, truth } = drawWall({ ...large, ...options });
  const path = join(tempFolder(), 'wall.jpg');
  writeFileSync(path, await encodePhoto(raster, { format: 'jpeg', quality: 90 }));
  return [truth, await measureFile(path)];
}

const measureFile = async (path: string) => {
  const measured = await measurePhoto(path, { course: findCourse('uk-metric'), save: true });
  if (!measured.ok) throw new Error(measured.message);
  return measured.value;
};

test('a large photo, looked at small, is measured and straightened in its own pixels', async () => {
  const [truth, found] = await measureDrawn({ coursePx: 60, rotation: 3, tiltX: 8, tiltY: 4 });
  expect(found.photo).toMatchObject({ width: 3300, height: 2200 });
  expect(Math.abs(found.mmPerPx.y / truth.mmPerPx.y - 1)).toBeLessThan(0.005);
  const { rectification } = found;
  if (rectification === null) throw new Error('taken as level');
  for (const corner of [
    { x: 0, y: 0 },
    { x: 3300, y: 0 },
    { x: 0, y: 2200 },
    { x: 3300, y: 2200 },
  ]) {
    // A course is 60 px: a tenth of one at the corners.
    const [a, b] = [rectification, truth.rectification].map((how) => toLevel(how, large, corner));
    expect(Math.abs((a?.y ?? NaN) - (b?.y ?? NaN))).toBeLessThan(6);
  }
});

test('courses too fine for that are looked at in all of the photo', async () => {
  const [truth, found] = await measureDrawn({ coursePx: 14 });
  expect(Math.abs(found.mmPerPx.y / truth.mmPerPx.y - 1)).toBeLessThan(0.002);
});

test('a large photo fills a part with courses of the true height, from a bed joint on', async () => {
  const { raster, truth } = drawWall({ ...large, coursePx: 60, seed: 89 });
  const folder = tempFolder();
  const [path, output] = [join(folder, 'wall.jpg'), join(folder, 'part.png')];
  writeFileSync(path, await encodePhoto(raster, { format: 'jpeg', quality: 90 }));
  const filled = await fillPhoto(path, {
    course: findCourse('uk-metric'),
    scale: findScale('OO'),
    size: { width: printMm(60), height: printMm(40) },
    output,
  });
  if (!filled.ok) throw new Error(filled.message);
  const { tile, measurement, widthPx, heightPx } = filled.value;
  // 60 x 40 mm at 600 dots to 25.4 mm; 75 mm at 1:76.2 are 23.25 dots.
  expect([widthPx, heightPx]).toEqual([1417, 945]);
  expect(Math.abs(tile.heightPx / (tile.courses ?? NaN) / 23.25 - 1)).toBeLessThan(0.001);
  expect(Math.abs((measurement.coursePeriodPx ?? NaN) / truth.coursePx - 1)).toBeLessThan(0.002);
  expect(filled.warnings.map(({ code }) => code)).not.toContain('visible-seam');
});

test('a large photo that was measured before covers the outlines of a drawing', async () => {
  const { raster } = drawWall({ ...large, coursePx: 60, seed: 89 });
  const folder = tempFolder();
  const [photo, path] = [join(folder, 'wall.jpg'), join(folder, 'house.svg')];
  writeFileSync(photo, await encodePhoto(raster, { format: 'jpeg', quality: 90 }));
  await measureFile(photo);
  writeFileSync(
    path,
    '<svg xmlns="http://www.w3.org/2000/svg" width="20mm" height="20mm" viewBox="0 0 20 20"><rect id="gable" width="9" height="9"/></svg>',
  );
  const dressed = await dressDrawing(path, {
    paint: [{ key: parsePaintKey('#gable', 'paint'), surface: photo }],
    scale: findScale('OO'),
    output: join(folder, 'dressed.svg'),
  });
  expect(dressed).toMatchObject({ ok: true, value: { outlines: [{ id: 'gable' }] } });
});
