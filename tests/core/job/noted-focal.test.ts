import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { findCourse, findFocalLength, measurePhoto } from '@gaugerod/core';
import { drawWall, encodePhoto, toPhoto } from '@gaugerod/fixtures';
import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import { tempFolder } from '../../support/temp-folder.js';

// A camera of 1.1 times the long side: 1320 px, which is 38 mm of a 35 mm camera (CIPA DCG-001:
// equal diagonals, 43.267 mm).
const { raster, truth } = drawWall({
  ...{ width: 1200, height: 900, coursePx: 40, seed: 12 },
  ...{ rotation: 3, tiltX: 14, tiltY: 5 },
});
const size = { width: 1200, height: 900 };

const wall = await encodePhoto(raster, { quality: 95 });

async function noting(focal: number): Promise<string> {
  const path = join(tempFolder(), `wall-${focal}.jpg`);
  const exif = { IFD2: { FocalLengthIn35mmFilm: `${focal}` } };
  writeFileSync(path, await sharp(wall).withExif(exif).jpeg({ quality: 95 }).toBuffer());
  return path;
}

describe('a camera that notes a focal length which is not that of the photo', () => {
  test.each([1, 100, 300, 2000, 65_535])('%i mm does not bend a measurement', async (focal) => {
    const outcome = await measurePhoto(await noting(focal), { course: findCourse('75mm') });
    if (!outcome.ok) throw new Error(outcome.message);
    expect(Math.abs(outcome.value.mmPerPx.y / truth.mmPerPx.y - 1)).toBeLessThan(0.01);
    const told = outcome.warnings.some(({ message }) => message.includes('focal length'));
    expect(told).toBe(focal >= 100 && focal <= 2000);
  });

  test('the right one makes it surer', async () => {
    const outcome = await measurePhoto(await noting(38), { course: findCourse('75mm') });
    if (!outcome.ok) throw new Error(outcome.message);
    expect(Math.abs(outcome.value.mmPerPx.y / truth.mmPerPx.y - 1)).toBeLessThan(0.003);
    expect(outcome.value.uncertaintyPercent).toBeLessThan(2);
  });

  test('corners go by no focal length that a lens cannot have', async () => {
    const level = [
      { x: 300, y: 250 },
      { x: 900, y: 250 },
      { x: 900, y: 650 },
      { x: 300, y: 650 },
    ];
    const corners = level.map((point) => toPhoto(truth.rectification, size, point));
    const known = { corners, course: findCourse('75mm') };
    const [plain, odd] = await Promise.all(
      [await noting(1), await noting(65_535)].map((path) => measurePhoto(path, known)),
    );
    if (!plain?.ok || !odd?.ok) throw new Error('expected both to be measured');
    expect(odd.value.mmPerPx).toEqual(plain.value.mmPerPx);
  });
});

test.each([1, 65_535])('%i mm is said to be no lens', (focalLength35mm) => {
  const none = { focalLengthMm: null, digitalZoom: 1, sensorPxPerMm: null, stored: null };
  const found = findFocalLength(size, { ...none, focalLength35mm });
  expect(found).toMatchObject({ ok: false, code: 'no-focal-length' });
  expect(found).toHaveProperty('message', expect.stringContaining(`${focalLength35mm} mm`));
});
