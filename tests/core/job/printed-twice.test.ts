import { spawnSync } from 'node:child_process';
import { mkdirSync, readdirSync, readFileSync } from 'node:fs';
import { writeFile } from 'node:fs/promises';
import { basename, join } from 'node:path';
import {
  buildJob,
  dpi,
  dressDrawing,
  fillPhoto,
  type FillPhotoOptions,
  findCourse,
  findScale,
  makeRelief,
  parsePaintKey,
  parsePrintSize,
  parseProfile,
  realMm,
  sheetParts,
  slimDrawing,
} from '@gaugerod/core';
import { drawWall, encodePhoto } from '@gaugerod/fixtures';
import sharp from 'sharp';
import { beforeAll, describe, expect, test } from 'vitest';
import { plainBrick } from '../../support/plain-brick.js';
import { tempFolder } from '../../support/temp-folder.js';

const reader = 'exiftool';
const reads = spawnSync(reader, ['-ver']).error === undefined;
if (!reads) console.log(`skipped: ${reader} is not installed`);

const note = 'gaugerod: colours made for a printer';
const printing = { dotGain: 0.18 };
const surface = { course: findCourse('uk-metric'), scale: findScale('OO'), dpi: dpi(150) };
const twice = { code: 'printed-twice' };

let wall: Buffer;
beforeAll(async () => {
  wall = await encodePhoto(drawWall(plainBrick).raster, { format: 'png' });
});

async function begin(): Promise<(name: string) => string> {
  const folder = tempFolder();
  await writeFile(join(folder, 'wall.png'), wall);
  return (name) => join(folder, name);
}

async function fill(
  at: (name: string) => string,
  name: string,
  more: Partial<FillPhotoOptions>,
): Promise<string> {
  const output = at(name);
  const size = parsePrintSize('30x20mm');
  const filled = await fillPhoto(at('wall.png'), { ...surface, size, output, ...more });
  if (!filled.ok) throw new Error(filled.message);
  return output;
}

describe('a part whose colours were made for a printer', () => {
  test.each<readonly [string, Partial<FillPhotoOptions>]>([
    ['part.png', {}],
    ['part.tif', {}],
    ['part.jpg', {}],
    ['part.webp', {}],
    ['part.svg', {}],
    ['old.png', { weather: { preset: 'grimy', seed: 4 } }],
  ])('%s is not changed for one again, and laid as it is', async (name, more) => {
    const at = await begin();
    const part = await fill(at, name, { ...more, printing });
    const again = sheetParts([part], { output: at('page.pdf'), printing });
    await expect(again).rejects.toMatchObject(twice);
    await expect(again).rejects.toThrow(name);
    expect(readdirSync(at('.'))).not.toContain('page.pdf');
    expect(await sheetParts([part], { output: at('page.pdf') })).toMatchObject({ ok: true });
    const plain = await fill(at, `plain-${name}`, { ...more, printing: { sharpen: 1 } });
    expect(await sheetParts([plain], { output: at('sent.pdf'), printing })).toMatchObject({
      ok: true,
    });
  });

  test('says so where other programs look', async () => {
    const at = await begin();
    const png = await sharp(await fill(at, 'part.png', { printing })).metadata();
    expect(png.comments).toEqual([{ keyword: 'Comment', text: note }]);
    for (const name of ['part.tif', 'part.jpg']) {
      const path = await fill(at, name, { printing });
      if (!reads) continue;
      const { stdout } = spawnSync(reader, ['-s3', '-ImageDescription', path]);
      expect(String(stdout).trim()).toBe(note);
    }
    const webp = await sharp(await fill(at, 'part.webp', { printing })).metadata();
    expect(webp.exif?.includes(note)).toBe(true);
    // Past the note, dots and print size are read as ever.
    for (const name of ['part.png', 'part.tif', 'part.jpg']) {
      const { width, height, density } = await sharp(at(name)).metadata();
      expect([width, height, density]).toEqual([177, 118, 150]);
    }
  });

  test('in relief, or in a dressed drawing, is known likewise', async () => {
    const at = await begin();
    const girder = {
      profile: parseProfile('plate', 'profile'),
      depth: realMm(600),
      length: realMm(1500),
      scale: findScale('OO'),
      colour: '#7a543e',
    };
    await makeRelief(null, { ...girder, printing, output: at('girder.png') });
    await writeFile(
      at('house.svg'),
      '<svg xmlns="http://www.w3.org/2000/svg" width="20mm" height="20mm" viewBox="0 0 20 20"><rect fill="#b5432e" width="15" height="15"/></svg>',
    );
    const paint = [{ key: parsePaintKey('#b5432e', 'paint'), surface: at('wall.png') }];
    await dressDrawing(at('house.svg'), { ...surface, paint, printing, output: at('in.svg') });
    const link = at('beside');
    mkdirSync(link);
    await dressDrawing(at('house.svg'), {
      ...surface,
      paint,
      printing,
      link,
      output: at('by.svg'),
    });
    for (const name of ['girder.png', 'in.svg', 'by.svg']) {
      const laid = sheetParts([at(name)], { output: at('page.pdf'), printing });
      await expect(laid, name).rejects.toMatchObject(twice);
    }
  });

  test('is known still once slim has encoded it anew', async () => {
    const at = await begin();
    const part = await fill(at, 'part.png', { printing, dpi: dpi(1200) });
    const picture = `data:image/png;base64,${readFileSync(part).toString('base64')}`;
    await writeFile(
      at('house.svg'),
      `<svg xmlns="http://www.w3.org/2000/svg" width="20mm" height="20mm" viewBox="0 0 20 20"><svg width="8" height="9"><image width="30" height="20" href="${picture}"/></svg></svg>`,
    );
    const slimmed = await slimDrawing(at('house.svg'), { output: at('slim.svg'), dpi: dpi(300) });
    if (!slimmed.ok) throw new Error('a drawing that was not slimmed');
    expect(slimmed.value.bytesAfter).toBeLessThan(slimmed.value.bytesBefore / 2);
    const laid = sheetParts([at('slim.svg')], { output: at('page.pdf'), printing });
    await expect(laid).rejects.toMatchObject(twice);
  });

  test.each([{ printing }, {}])('is known on a page written as a picture: %j', async (more) => {
    const at = await begin();
    const part = await fill(at, 'part.png', 'printing' in more ? {} : { printing });
    const page = { output: at('page.png'), dpi: dpi(72) };
    expect(await sheetParts([part], { ...page, ...more })).toMatchObject({ ok: true });
    const again = sheetParts([at('page.png')], { output: at('again.pdf'), printing });
    await expect(again).rejects.toMatchObject(twice);
  });

  test('is no surface of a drawing that a job dresses', async () => {
    const at = await begin();
    const part = await fill(at, 'part.png', { printing, size: parsePrintSize('60x50mm') });
    await writeFile(
      at('house.svg'),
      '<svg xmlns="http://www.w3.org/2000/svg" width="20mm" height="20mm" viewBox="0 0 20 20"><rect fill="#b5432e" width="15" height="15"/></svg>',
    );
    await writeFile(
      at('works.yaml'),
      [
        'gaugerod: 1',
        'scale: OO',
        'dpi: 150',
        'printing: { dotGain: 18% }',
        `surfaces: { wall: { photo: ${basename(part)}, course: uk-metric } }`,
        "parts: { front: { drawing: house.svg, paint: { '#b5432e': wall } } }",
      ].join('\n'),
    );
    const built = await buildJob(at('works.yaml'), { jobs: 1 });
    expect(JSON.stringify(built)).toContain('would be changed twice');
  });

  test('is no photo to make such parts of', async () => {
    const at = await begin();
    const part = await fill(at, 'part.png', { printing });
    const size = parsePrintSize('9x9mm');
    const again = fillPhoto(part, { ...surface, size, output: at('again.png'), printing });
    await expect(again).rejects.toMatchObject(twice);
    expect(readFileSync(part).includes(note)).toBe(true);
    expect(readdirSync(at('.'))).not.toContain('again.png');
  });
});
