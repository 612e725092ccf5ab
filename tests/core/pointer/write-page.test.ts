import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import {
  findCourse,
  measurePhoto,
  parseRealLength,
  parseStatedLength,
  realMm,
} from '@gaugerod/core';
import { drawWall, encodePhoto } from '@gaugerod/fixtures';
import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import { browserPath, openBrowser } from '../../support/open-browser.js';
import { noisePicture } from '../../support/noise-picture.js';
import { openPointedPage } from '../../support/pointed-page.js';
import { plainBrick } from '../../support/plain-brick.js';
import { tempFolder } from '../../support/temp-folder.js';

const brick = await encodePhoto(drawWall(plainBrick).raster, { format: 'png' });

function put(name: string, bytes: Uint8Array, folder = tempFolder()): string {
  const path = join(folder, name);
  writeFileSync(path, bytes);
  return path;
}

// The picture in a page, as a browser takes it out.
function pictureIn(page: string): Buffer {
  const [, base64 = ''] =
    /src="data:image\/jpeg;base64,([^"]*)"/.exec(readFileSync(page, 'utf8')) ?? [];
  return Buffer.from(base64, 'base64');
}

test('a photo without courses gets its page all the same, and nothing is wrong with that', async () => {
  const photo = put('plaster.png', await encodePhoto(noisePicture(300, 220, 5), { format: 'png' }));
  const page = join(photo, '..', 'plaster.html');
  const outcome = await measurePhoto(photo, { page });
  expect(outcome).toMatchObject({
    ok: true,
    value: { method: 'formats', formats: [], coursePeriodPx: null, page },
    warnings: [{ code: 'no-courses' }],
  });
  expect(readFileSync(page, 'utf8')).toContain('plaster.png');
});

test('where a course was named and none is there, the page is the hint', async () => {
  const photo = put('plaster.png', await encodePhoto(noisePicture(300, 220, 5), { format: 'png' }));
  const page = join(photo, '..', 'plaster.html');
  const outcome = await measurePhoto(photo, { course: findCourse('uk-metric'), page });
  expect(outcome).toMatchObject({ ok: false, code: 'no-courses' });
  expect(!outcome.ok && outcome.hint).toContain('plaster.html');
  expect(pictureIn(page).length).toBeGreaterThan(1000);
});

test('a photo that lies on its side in the file stands upright in the page, pixel by pixel', async () => {
  // Exif 2.32, tag 274: 6 is to be turned a quarter clockwise.
  const turned = await sharp(brick).rotate(-90).withMetadata({ orientation: 6 }).jpeg().toBuffer();
  const photo = put('turned.jpg', turned);
  const page = join(photo, '..', 'turned.html');
  await measurePhoto(photo, { page });
  const raw = async (bytes: Buffer): Promise<{ data: Buffer; size: number[] }> => {
    const picture = sharp(bytes).removeAlpha().raw();
    const { data, info } = await picture.toBuffer({ resolveWithObject: true });
    return { data, size: [info.width, info.height] };
  };
  const [shown, truth] = await Promise.all([raw(pictureIn(page)), raw(brick)]);
  expect(shown.size).toEqual([plainBrick.width, plainBrick.height]);
  let off = 0;
  for (const [i, value] of truth.data.entries()) off += Math.abs(value - (shown.data[i] ?? 0));
  // Two encodings lose a few levels; a photo shifted by one pixel differs by far more.
  expect(off / truth.data.length).toBeLessThan(5);
});

test('nothing of where and by whom goes into the page', async () => {
  const exif = {
    IFD0: { Artist: 'Wharf Master' },
    IFD3: { GPSLatitudeRef: 'N', GPSLatitude: '51/1 30/1 0/1' },
  };
  const photo = put('noted.jpg', await sharp(brick).withExif(exif).jpeg().toBuffer());
  const page = join(photo, '..', 'noted.html');
  await measurePhoto(photo, { page });
  const { exif: noted } = await sharp(pictureIn(page)).metadata();
  expect(String(noted)).not.toContain('Wharf Master');
  expect(readFileSync(page, 'utf8')).not.toContain(tempName(photo));
});

const tempName = (photo: string): string => join(photo, '..');

test('what is given is where the page begins', async () => {
  const photo = put('wall.png', brick);
  const page = join(photo, '..', 'wall.html');
  const spans = [
    [
      { x: 10.5, y: 20 },
      { x: 310.5, y: 20 },
    ],
  ] as const;
  await measurePhoto(photo, {
    spans,
    lengths: [parseStatedLength('900mm+-3mm')],
    page,
    credit: 'T. Wharf',
  });
  const [, told = ''] = /id="told">(.*?)<\/script>/s.exec(readFileSync(page, 'utf8')) ?? [];
  expect(JSON.parse(told)).toMatchObject({
    photo: { file: 'wall.png', width: 360, height: 260 },
    start: { way: 'line', lines: [{ span: spans[0], length: '900mm+-3mm' }] },
    credit: 'T. Wharf',
  });
});

test('a photo that has changed since it was measured is pointed at anew, with the notes it had', async () => {
  const photo = put('wall.png', brick);
  await measurePhoto(photo, { course: findCourse('uk-metric'), save: true, licence: 'CC0' });
  writeFileSync(photo, await sharp(brick).negate().png().toBuffer());
  await expect(measurePhoto(photo)).rejects.toThrow('has changed');
  const page = join(photo, '..', 'wall.html');
  expect(await measurePhoto(photo, { page })).toMatchObject({ ok: true, value: { page } });
  expect(readFileSync(page, 'utf8')).toContain('"licence":"CC0"');
});

describe('a page is refused', () => {
  const photo = (): string => put('wall.png', brick);

  test('over the photo, in another kind of file, and in a folder that is not there', async () => {
    const path = photo();
    await expect(measurePhoto(path, { page: path })).rejects.toThrow('is the input');
    await expect(measurePhoto(path, { page: join(path, '..', 'p.png') })).rejects.toThrow(
      'what is written is .html',
    );
    await expect(measurePhoto(path, { page: join(path, '..', 'a', 'p.html') })).rejects.toThrow(
      'does not exist',
    );
    const html = put('wall.html', brick);
    await expect(measurePhoto(html, { page: html })).rejects.toThrow('is the input');
    expect(readFileSync(html)).toEqual(brick);
  });

  test('beside what it could not heed', async () => {
    const path = photo();
    const page = join(path, '..', 'p.html');
    const course = findCourse('uk-metric');
    await expect(measurePhoto(path, { course, straighten: 'none', page })).rejects.toThrow(
      'may be straightened wholly',
    );
    const distance = { length: parseRealLength('5m') };
    await expect(measurePhoto(path, { distance, page })).rejects.toThrow('no distance');
  });
});

test.skipIf(browserPath === null)(
  'references of one’s own are chosen as those of the catalogue are',
  async () => {
    const photo = put('wall.png', brick);
    const page = join(photo, '..', 'wall.html');
    const dyeHouse = {
      id: 'dye-house',
      name: 'brick of the dye house',
      kind: 'brick',
      course: realMm(76),
      tolerance: realMm(1),
      length: realMm(228),
      lengthTolerance: realMm(2),
      width: realMm(110),
      joint: realMm(9),
      source: 'measured over 20 courses',
    } as const;
    await measurePhoto(photo, { page, references: [dyeHouse] });
    const browser = await openBrowser();
    try {
      const { tab, ends, saved } = await openPointedPage(browser, page);
      await tab.check('input[value=count]', { force: true });
      await tab.fill('#choice', 'dye');
      await tab.click('text=brick of the dye house');
      const { text } = await saved();
      expect(JSON.parse(text)).toMatchObject({ reference: { id: 'dye-house', sizeMm: 76 } });
      await tab.check('input[value=line]', { force: true });
      await tab.selectOption('#thing', 'brick');
      await tab.fill('#choice', 'dye-house');
      const [a = 0, b = 0, c = 0, d = 0] = await ends();
      const { mmPerPx } = JSON.parse((await saved()).text) as { mmPerPx: { x: number } };
      // 228 mm, the long face without mortar, on the line.
      expect(mmPerPx.x * Math.hypot(c - a, d - b)).toBeCloseTo(228, 6);
    } finally {
      await browser.close();
    }
  },
);

test.skipIf(browserPath === null || process.platform === 'win32')(
  'a photo may be called anything',
  async () => {
    const name = `it's "40%" <!--<script> &amp; ✓.png`;
    const photo = put(name, brick);
    const page = join(photo, '..', 'odd.html');
    await measurePhoto(photo, { page });
    const browser = await openBrowser();
    try {
      const { tab, noise, saved } = await openPointedPage(browser, page);
      expect(await tab.textContent('h1')).toBe(name);
      expect(await tab.title()).toContain(name);
      await tab.fill('#length-0', '1m');
      const { text } = await saved();
      expect(JSON.parse(text)).toMatchObject({ photo: { file: name } });
      // As a shell of POSIX reads it: IEEE Std 1003.1, 2.2.2, single quotes.
      expect(await tab.inputValue('#command')).toContain(
        `measure 'it'\\''s "40%" <!--<script> &amp; ✓.png' --span`,
      );
      expect(noise).toEqual([]);
    } finally {
      await browser.close();
    }
  },
);
