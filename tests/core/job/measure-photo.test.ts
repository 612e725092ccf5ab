import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import {
  measurePhoto,
  type MeasurePhotoOptions,
  readSidecar,
  readPhoto,
  realMm,
} from '@gaugerod/core';
import { beforeEach, expect, test } from 'vitest';
import { pngFile } from '../../support/picture-files.js';
import { tempFolder } from '../../support/temp-folder.js';

let folder = '';
let wall = '';
beforeEach(() => {
  folder = tempFolder();
  wall = join(folder, 'wall.png');
  writeFileSync(wall, pngFile({ width: 30, height: 20 }));
});

const span: MeasurePhotoOptions = {
  span: [
    { x: 0, y: 0 },
    { x: 30, y: 0 },
  ],
  length: realMm(90),
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
