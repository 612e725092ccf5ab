import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { findCourse, measurePhoto } from '@gaugerod/core';
import sharp from 'sharp';
import { beforeAll, expect, test } from 'vitest';
import { drawPhotos, works as worksOf, type Works } from '../../../support/building.js';

let photos: Awaited<ReturnType<typeof drawPhotos>>;

beforeAll(async () => {
  photos = await drawPhotos();
});

const jobOf = (surface: string): string => `gaugerod: 1
scale: OO
surfaces:
  wall: { photo: red.png, course: uk-metric${surface} }
parts:
  gable: { surface: wall, size: 28x18mm }
`;

const works = (surface: string): Works => worksOf(photos, jobOf(surface));

// The fewest columns after which a picture is the same again, or null where it never is.
async function comesAgain(path: string): Promise<number | null> {
  const { data, info } = await sharp(path).greyscale().raw().toBuffer({ resolveWithObject: true });
  const { width, height } = info;
  const isSame = (by: number): boolean => {
    for (let y = 0; y < height; y++)
      for (let x = 0; x + by < width; x++)
        if (data[y * width + x] !== data[y * width + x + by]) return false;
    return true;
  };
  for (let by = 1; by <= width - 20; by++) if (isSame(by)) return by;
  return null;
}

test('a surface is laid anew of two photos: no repeat shows on the part, and its courses are true', async () => {
  const mended = works('');
  await mended.build();
  const extended = works(', extend: { photos: [pale.png], size: 30x20mm, seed: 3 }');
  await extended.build();
  const part = join(extended.folder, 'out', 'gable.png');
  // The photo shows 14.7 courses across, 1.1 m: 14.5 mm of paper in OO, 341 dots.
  expect(await comesAgain(join(mended.folder, 'out', 'gable.png'))).toBeLessThan(341);
  expect(await comesAgain(part)).toBe(null);
  const measured = await measurePhoto(part, { course: findCourse('uk-metric') });
  if (!measured.ok) throw new Error(measured.message);
  // OO is 4 mm to the foot, 1:76.2; 25.4 / 600 mm of paper a dot are 3.2258 mm of the real thing.
  expect(Math.abs(measured.value.mmPerPx.y / 3.2258 - 1)).toBeLessThan(0.003);
});

test('it is built again when any of its photos changes, and at no other time', async () => {
  const { folder, build } = works(', extend: { photos: [pale.png], times: 2x2 }');
  await build({ report: join(folder, 'record.html') });
  const page = readFileSync(join(folder, 'record.html'), 'utf8');
  expect(page).toMatch(/Joined with<\/dt>\s*<dd><bdi>pale\.png/);
  // Whoever sells the model owes both photographers.
  expect(page.match(/<th scope="row"><bdi>(red|pale)\.png/g)).toHaveLength(2);
  expect((await build()).steps[0]).toMatchObject({ state: 'kept' });
  writeFileSync(join(folder, 'pale.png'), photos.other);
  const [gable] = (await build({ dryRun: true })).steps;
  expect(gable).toMatchObject({ state: 'planned', why: 'pale.png changed' });
});
