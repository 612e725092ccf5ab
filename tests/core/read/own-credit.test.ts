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
