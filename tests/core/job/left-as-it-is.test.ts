import { copyFileSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { extendPhotos, findCourse, mendPhoto, parseRealSize, readPhoto } from '@gaugerod/core';
import { drawTexture, drawWall, encodePhoto } from '@gaugerod/fixtures';
import sharp from 'sharp';
import { afterAll, beforeAll, expect, test } from 'vitest';

const folder = mkdtempSync(join(tmpdir(), 'gaugerod-left-'));
const at = (name: string): string => join(folder, name);

beforeAll(async () => {
  const { raster } = drawTexture({ texture: 'gravel', width: 220, height: 180, seed: 5 });
  writeFileSync(at('gravel.png'), await encodePhoto(raster, { format: 'png' }));
  const made = await mendPhoto(at('gravel.png'), { output: at('tile.png') });
  if (!made.ok) throw new Error(made.message);
  const tile = await readPhoto(at('tile.png'));
  writeFileSync(at('tile.jpg'), await encodePhoto(tile.raster, { format: 'jpeg' }));
  const wall = drawWall({ coursePx: 24, width: 480, height: 360, seed: 12 });
  writeFileSync(at('wall.png'), await encodePhoto(wall.raster, { format: 'png' }));
  copyFileSync(at('wall.png'), at('copy of wall.png'));
});

afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

test.each(['png', 'jpg'])(
  'a .%s that meets itself is handed on to the byte, and that is said',
  async (kind) => {
    const output = at(`out.${kind}`);
    const made = await mendPhoto(at(`tile.${kind}`), { output });
    if (!made.ok) throw new Error(made.message);
    expect(made.value.method).toBe('none');
    expect(readFileSync(output).equals(readFileSync(at(`tile.${kind}`)))).toBe(true);
    const [said] = made.warnings.filter(({ code }) => code === 'already-seamless');
    expect(said?.message).toContain('the same to the byte');
  },
);

test('what a camera noted is not handed on', async () => {
  const noted = sharp(at('tile.jpg')).withExif({ IFD0: { Artist: 'number 4711' } });
  const bytes = await noted.jpeg({ quality: 95 }).toBuffer();
  expect(bytes.includes('4711')).toBe(true);
  writeFileSync(at('noted.jpg'), bytes);
  const made = await mendPhoto(at('noted.jpg'), { output: at('clean.jpg') });
  if (!made.ok) throw new Error(made.message);
  expect(made.value.method).toBe('none');
  expect(readFileSync(at('clean.jpg')).includes('4711')).toBe(false);
});

test('as another kind of picture it is written anew', async () => {
  const made = await mendPhoto(at('tile.jpg'), { output: at('out.tif') });
  if (!made.ok) throw new Error(made.message);
  const [before, after] = [await readPhoto(at('tile.jpg')), await readPhoto(at('out.tif'))];
  expect(after.raster.planes[1]).toEqual(before.raster.planes[1]);
  expect(made.warnings.map(({ message }) => message).join()).not.toContain('byte');
});

test('one picture under two names is not joined with itself', async () => {
  const made = await extendPhotos([at('wall.png'), at('copy of wall.png')], {
    output: at('large.png'),
    course: findCourse('uk-metric'),
    realSize: parseRealSize('3x2m'),
  });
  expect(made).toMatchObject({ ok: false, code: 'same-photo' });
  if (!made.ok) expect(made.message).toContain('copy of wall.png');
});
