import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { readOwnCredit } from '../../../packages/core/src/read/read-own-credit.js';
import {
  corners,
  exifBlock,
  exifSegment,
  type TiffField,
  withSegments,
} from '../../support/picture-files.js';
import { tempFolder } from '../../support/temp-folder.js';

// CIPA DC-008 (Exif 2.32), table 4: Artist is tag 315, Copyright 33432.
const [artist, copyright] = [315, 33_432];

async function creditOf(...fields: readonly TiffField[]): Promise<string | null> {
  const path = join(tempFolder(), 'wall.jpg');
  const segment = exifSegment(exifBlock(fields));
  writeFileSync(path, withSegments(await corners().jpeg().toBuffer(), [segment]));
  return readOwnCredit(path);
}

test('a photo says whose it is', async () => {
  expect(await creditOf([artist, 'Tansy Wharf survey'])).toBe('Tansy Wharf survey');
  // Written in UTF-8, as programs do.
  const notice = '© 2026 Tansy Wharf survey';
  expect(await creditOf([copyright, notice])).toBe(notice);
  // The same name is not told twice.
  expect(await creditOf([artist, 'Tansy Wharf survey'], [copyright, notice])).toBe(notice);
  expect(await creditOf([artist, 'the foreman'], [copyright, notice])).toBe(
    `${notice}; the foreman`,
  );
});

test.each(['png', 'webp', 'avif'] as const)('and so does one in %s', async (format) => {
  const path = join(tempFolder(), 'wall');
  const said = corners().withExif({ IFD0: { Artist: 'Tansy Wharf survey' } });
  writeFileSync(path, await said.toFormat(format).toBuffer());
  expect(await readOwnCredit(path)).toBe('Tansy Wharf survey');
});

// A writer that knows nothing of ours.
const writer = 'exiftool';
const writes = spawnSync(writer, ['-ver']).error === undefined;
if (!writes) console.log(`skipped: ${writer} is not installed`);

test.runIf(writes)('and so does a TIFF, in fields of its own', async () => {
  const path = join(tempFolder(), 'wall.tif');
  writeFileSync(path, await corners().tiff().toBuffer());
  expect(await readOwnCredit(path)).toBeNull();
  const fields = ['-IFD0:Artist=the foreman', '-IFD0:Copyright=© 2026 Tansy Wharf'];
  expect(spawnSync(writer, ['-overwrite_original', ...fields, path]).status).toBe(0);
  expect(await readOwnCredit(path)).toBe('© 2026 Tansy Wharf; the foreman');
});

// TIFF 6.0, section 2, and BigTIFF: a header, one directory, type 2 for ASCII; a short text stands in its field.
function tiffOf(order: 'LE' | 'BE', isBig: boolean, tag: number, text: string): Buffer {
  const file = Buffer.alloc(128);
  const short = (value: number, at: number): unknown => file[`writeUInt16${order}`](value, at);
  const long = (value: number, at: number): unknown =>
    isBig
      ? file[`writeBigUInt64${order}`](BigInt(value), at)
      : file[`writeUInt32${order}`](value, at);
  file.write(order === 'LE' ? 'II' : 'MM');
  short(isBig ? 43 : 42, 2);
  if (isBig) short(8, 4);
  const [start, size] = isBig ? [16, 8] : [8, 4];
  long(start, start - size);
  if (isBig) long(1, start);
  else short(1, start);
  const field = start + (isBig ? 8 : 2);
  short(tag, field);
  short(2, field + 2);
  long(text.length + 1, field + 4);
  const value = field + 4 + size;
  if (text.length < size) file.write(text, value);
  else {
    long(64, value);
    file.write(text, 64);
  }
  return file;
}

test.each([
  ['LE', false],
  ['BE', false],
  ['LE', true],
  ['BE', true],
] as const)('whatever its order of bytes and its width: %s, big: %s', async (order, isBig) => {
  const path = join(tempFolder(), 'wall.tif');
  for (const [tag, text] of [
    [artist, 'the'],
    [copyright, 'Tansy Wharf survey'],
  ] as const) {
    writeFileSync(path, tiffOf(order, isBig, tag, text));
    expect(await readOwnCredit(path)).toBe(text);
  }
});

test('a TIFF whose texts lie outside the file says nothing', async () => {
  const path = join(tempFolder(), 'wall.tif');
  const file = tiffOf('LE', false, artist, 'the foreman');
  file.writeUInt32LE(0xffff_fff0, 18);
  writeFileSync(path, file);
  expect(await readOwnCredit(path)).toBeNull();
});

test('of a notice of photographer and editor both are told', async () => {
  // CIPA DC-008, 4.6.4: a NUL lies between them; where there is no photographer, a blank stands for one.
  expect(await creditOf([copyright, 'the wharf\0the dye works'])).toBe('the wharf; the dye works');
  expect(await creditOf([copyright, ' \0the dye works'])).toBe('the dye works');
});

test('what is no name is not taken for one', async () => {
  expect(await creditOf([copyright, '    '], [artist, '\u0007\u001b   '])).toBeNull();
  expect(await creditOf([artist, 4])).toBeNull();
  expect(await creditOf([artist, 'the\r\nwharf'])).toBe('the wharf');
  expect(await creditOf([artist, 'x'.repeat(5000)])).toHaveLength(200);
  const bare = join(tempFolder(), 'bare.jpg');
  writeFileSync(bare, await corners().jpeg().toBuffer());
  expect(await readOwnCredit(bare)).toBeNull();
});
