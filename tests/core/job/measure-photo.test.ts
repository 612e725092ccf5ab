import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import {
  createRaster,
  findCourse,
  measurePhoto,
  type MeasurePhotoOptions,
  readSidecar,
  readPhoto,
  realMm,
} from '@gaugerod/core';
import { drawTexture, drawWall, encodePhoto } from '@gaugerod/fixtures';
import sharp from 'sharp';
import { beforeEach, expect, test } from 'vitest';
import { pngFile } from '../../support/picture-files.js';
import { plainBrick } from '../../support/plain-brick.js';
import { tempFolder } from '../../support/temp-folder.js';

let folder = '';
let wall = '';
beforeEach(() => {
  folder = tempFolder();
  wall = join(folder, 'wall.png');
  writeFileSync(wall, pngFile({ width: 30, height: 20 }));
});

const span: MeasurePhotoOptions = {
  spans: [
    [
      { x: 0, y: 0 },
      { x: 30, y: 0 },
    ],
  ],
  lengths: [{ length: realMm(90) }],
};

async function notes(): Promise<readonly unknown[]> {
  const kept = await readSidecar(await readPhoto(wall));
  return [kept?.licence, kept?.credit];
}

test('the terms of a photo outlive its measurement, until others are given', async () => {
  await measurePhoto(wall, { ...span, save: true, licence: 'CC0', credit: 'A. Modeller' });
  await measurePhoto(wall, { ...span, save: true });
  expect(await notes()).toEqual(['CC0', 'A. Modeller']);
  await measurePhoto(wall, { ...span, save: true, licence: 'CC BY 4.0' });
  expect(await notes()).toEqual(['CC BY 4.0', 'A. Modeller']);
});

test('they outlive a change of the photo as well', async () => {
  await measurePhoto(wall, { ...span, save: true, licence: 'CC0' });
  writeFileSync(wall, pngFile({ width: 40, height: 20 }));
  await measurePhoto(wall, { ...span, save: true });
  expect(await notes()).toEqual(['CC0', null]);
});

test('a photo never takes the surface file of another that lies beside it', async () => {
  await measurePhoto(wall, { ...span, save: true, licence: 'CC0' });
  const sidecar = join(folder, 'wall.surface.json');
  const before = readFileSync(sidecar);
  const twin = join(folder, 'wall.jpg');
  writeFileSync(twin, pngFile({ width: 40, height: 20 }));
  const refusal = {
    code: 'stale-sidecar',
    message: `${sidecar} is of another photo, wall.png, not of wall.jpg`,
    hint: 'rename one of them: both would be kept in wall.surface.json',
  };
  await expect(measurePhoto(twin, { ...span, save: true })).rejects.toMatchObject(refusal);
  await expect(measurePhoto(twin)).rejects.toMatchObject(refusal);
  expect(readFileSync(sidecar).equals(before)).toBe(true);
  // Once the other is gone, nothing is lost but its measurement; its terms are not this one's.
  rmSync(wall);
  wall = twin;
  await measurePhoto(twin, { ...span, save: true });
  expect(await notes()).toEqual([null, null]);
});

test('a surface file is named where one was written', async () => {
  expect(await measurePhoto(wall, span)).not.toHaveProperty('value.sidecar');
  const kept = await measurePhoto(wall, { ...span, save: true });
  expect(kept).toHaveProperty('value.sidecar', join(folder, 'wall.surface.json'));
  expect(await measurePhoto(wall)).not.toHaveProperty('value.sidecar');
});

test('courses that nobody named are found, and not measured: their likely formats are offered', async () => {
  const { raster } = drawWall({ bond: 'flemish', coursePx: 30, width: 640, height: 480, seed: 4 });
  writeFileSync(wall, await encodePhoto(raster, { format: 'png' }));
  const offered = await measurePhoto(wall);
  if (!offered.ok || offered.value.method !== 'formats') throw new Error('expected formats');
  expect(offered.value).toMatchObject({ reference: null, mmPerPx: null, bond: 'flemish' });
  const metric = offered.value.formats.find(({ id }) => id === 'uk-metric');
  // 75 mm over 30 px, and no likelier than imperial brick, three courses long as well.
  expect(Math.abs((metric?.mmPerPx.y ?? 0) / 2.5 - 1)).toBeLessThan(0.01);
  expect(metric?.probability).toBeLessThan(0.3);
  const [tied] = offered.warnings.filter(({ code }) => code === 'formats-tied');
  expect(tied?.message).toContain('uk-metric, uk-imperial, de-nf and us-modular cannot be told');
  // What is offered is what naming it gives.
  const named = await measurePhoto(wall, { course: findCourse('uk-metric') });
  if (!named.ok) throw new Error(named.message);
  expect(metric?.mmPerPx).toEqual(named.value.mmPerPx);
  expect(metric?.uncertaintyPercent).toBe(named.value.uncertaintyPercent);
});

test('of a wall seen aside, bricks say as much of a format offered as of one named', async () => {
  // Perspective leaves open how far the wall foreshortens; its bricks tell.
  const { raster } = drawWall({
    ...{ bond: 'flemish', format: 'uk-metric', coursePx: 24, width: 800, height: 600 },
    ...{ tiltX: 25, seed: 14 },
  });
  writeFileSync(wall, await encodePhoto(raster, { format: 'png' }));
  const offered = await measurePhoto(wall);
  const named = await measurePhoto(wall, { course: findCourse('uk-metric') });
  if (!offered.ok || offered.value.method !== 'formats' || !named.ok) throw new Error('no courses');
  expect(named.value.rectification).not.toBeNull();
  expect(named.value.mmPerPx.x).not.toBe(named.value.mmPerPx.y);
  const metric = offered.value.formats.find(({ id }) => id === 'uk-metric');
  expect(metric?.mmPerPx).toEqual(named.value.mmPerPx);
  expect(metric?.uncertaintyPercent).toBe(named.value.uncertaintyPercent);
  expect(metric?.surfaceSizeMm).toEqual(named.value.surfaceSizeMm);
});

test('what is not measured cannot be kept: the refusal names likely formats', async () => {
  const { raster } = drawWall({ format: 'de-df', coursePx: 30, width: 640, height: 480, seed: 4 });
  writeFileSync(wall, await encodePhoto(raster, { format: 'png' }));
  const refused = await measurePhoto(wall, { save: true });
  expect(refused).toMatchObject({ ok: false, code: 'not-measured' });
  expect(refused).toHaveProperty('hint', expect.stringContaining('--course de-df'));
});

test('a picture without courses has no formats', async () => {
  const { raster } = drawTexture({ texture: 'render', width: 320, height: 240, seed: 4 });
  writeFileSync(wall, await encodePhoto(raster, { format: 'png' }));
  expect(await measurePhoto(wall)).toMatchObject({ ok: false, code: 'no-courses' });
});

test('a region asks what the courses could be, and nothing else', async () => {
  await measurePhoto(wall, { ...span, save: true });
  // The picture is one plain colour: what was kept of it does not answer.
  expect(await measurePhoto(wall, { region: 'UK' })).toMatchObject({ code: 'no-courses' });
  await expect(measurePhoto(wall, { ...span, region: 'UK' })).rejects.toThrow(RangeError);
  await expect(measurePhoto(wall, { save: true, region: 'UK' })).rejects.toThrow(RangeError);
});

test('copies of a picture make its measurement no surer', async () => {
  const { raster } = drawWall({ coursePx: 30, width: 320, height: 300, seed: 4 });
  const tall = createRaster(320, 600);
  for (const [channel, plane] of raster.planes.entries()) {
    tall.planes[channel]!.set(plane);
    tall.planes[channel]!.set(plane, plane.length);
  }
  const fits: number[] = [];
  for (const picture of [raster, tall]) {
    writeFileSync(wall, await encodePhoto(picture, { format: 'png' }));
    const measured = await measurePhoto(wall, { course: findCourse('75mm') });
    if (!measured.ok) throw new Error(measured.message);
    fits.push(measured.value.uncertaintyPercent);
    const tiled = measured.warnings.filter(({ code }) => code === 'already-tiled');
    expect(tiled.length).toBe(picture === tall ? 1 : 0);
    if (picture === tall) {
      expect(tiled[0]?.message).toContain('repeats every 300 px down (it holds 2 copies)');
    }
  }
  expect(fits[1]).toBeGreaterThan(0.9 * (fits[0] ?? Infinity));
});

test('a picture of many copies of a few courses is no surer than these few', async () => {
  // Three courses of 30 px, each joint of which may lie a pixel off, ten times over: the mean of
  // three is hardly within 1 %, 0.3 px, so nobody can be sure that it is.
  const { raster } = drawWall({ coursePx: 30, courseJitter: 1, width: 320, height: 90, seed: 4 });
  const tall = createRaster(320, 900);
  for (const [channel, plane] of raster.planes.entries()) {
    for (let copy = 0; copy < 10; copy++) tall.planes[channel]!.set(plane, copy * plane.length);
  }
  writeFileSync(wall, await encodePhoto(tall, { format: 'png' }));
  const measured = await measurePhoto(wall, { course: findCourse('75mm') });
  if (!measured.ok) throw new Error(measured.message);
  expect(measured.value.uncertaintyPercent).toBeGreaterThan(2);
  expect(measured.value.confidence).toBeLessThan(0.5);
});

test('an overlay is written where one is asked, and its place is checked before any work', async () => {
  const overlay = join(folder, 'joints.png');
  const measured = await measurePhoto(wall, { ...span, overlay });
  expect(measured).toHaveProperty('value.overlay', overlay);
  expect((await sharp(overlay).metadata()).width).toBeGreaterThan(1000);
  const before = readFileSync(wall);
  const refusal = { code: 'output-is-input' };
  await expect(measurePhoto(wall, { ...span, overlay: wall })).rejects.toMatchObject(refusal);
  expect(readFileSync(wall).equals(before)).toBe(true);
  const steps: string[] = [];
  const elsewhere = join(folder, 'missing', 'joints.png');
  const onProgress = (step: string): void => void steps.push(step);
  await expect(
    measurePhoto(wall, { ...span, overlay: elsewhere, onProgress }),
  ).rejects.toMatchObject({ code: 'no-output-folder' });
  expect(steps).toEqual([]);
});

test('where a photo cannot be measured there is no overlay, and that is said', async () => {
  const overlay = join(folder, 'joints.png');
  const outcome = await measurePhoto(wall, { course: findCourse('uk-metric'), overlay });
  expect(outcome).toMatchObject({ ok: false, code: 'no-courses' });
  expect(outcome).toHaveProperty('message', expect.stringMatching(/, so no overlay was written$/));
  expect(existsSync(overlay)).toBe(false);
});

test('joints are shown of courses that nobody named, and of those that were kept', async () => {
  writeFileSync(wall, await encodePhoto(drawWall(plainBrick).raster, { format: 'png' }));
  const overlay = join(folder, 'joints.png');
  // Yellow lines: far less blue than green in the mean of the photo's part.
  const yellow = async (): Promise<number> => {
    const { channels } = await sharp(overlay)
      .extract({ left: 70, top: 20, width: 900, height: 600 })
      .stats();
    const [, green, blue] = channels;
    return (green?.mean ?? 0) - (blue?.mean ?? 0);
  };
  expect(await measurePhoto(wall, { overlay })).toHaveProperty('value.method', 'formats');
  const unnamed = await yellow();
  await measurePhoto(wall, { course: findCourse('uk-metric'), overlay, save: true });
  const named = await yellow();
  expect(await measurePhoto(wall, { overlay })).toHaveProperty('value.overlay', overlay);
  const kept = await yellow();
  await measurePhoto(wall, { ...span, overlay });
  const none = await yellow();
  expect(Math.abs(unnamed - named)).toBeLessThan(0.5);
  expect(Math.abs(kept - named)).toBeLessThan(0.1);
  expect(named - none).toBeGreaterThan(2);
});
