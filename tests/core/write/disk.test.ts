import { spawnSync } from 'node:child_process';
import { mkdirSync, readdirSync, readFileSync, statfsSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { encodePhoto } from '@gaugerod/fixtures';
import { beforeAll, expect, onTestFinished, test, type TestContext } from 'vitest';
import { writePicture } from '../../../packages/core/src/write/write-picture.js';
import { toRows } from '../../../packages/core/src/raster/row-source.js';
import { noisePicture } from '../../support/noise-picture.js';
import { runGaugerod } from '../../support/run-gaugerod.js';
import { tempFolder } from '../../support/temp-folder.js';

// Linux gives one in memory to whoever may mount it; elsewhere these tests are passed over.
function diskOf(context: TestContext, kilobytes: number): string {
  const disk = join(tempFolder(), 'disk');
  mkdirSync(disk);
  const words = ['-t', 'tmpfs', '-o', `size=${kilobytes}k`, 'tmpfs', disk];
  if (spawnSync('mount', words).status !== 0) context.skip('no disk may be mounted here');
  onTestFinished(() => {
    spawnSync('umount', [disk]);
  });
  return disk;
}

function fillUp(disk: string): void {
  const { bavail, bsize } = statfsSync(disk);
  // 8 KB are left: enough to begin a file.
  writeFileSync(join(disk, 'filler'), Buffer.alloc(bavail * bsize - 8192));
}

// Noise, of which nothing can be packed: 20 KB and more in every format.
const noise = noisePicture(120, 90, 7);
let photo: Buffer;

beforeAll(async () => {
  photo = await encodePhoto(noise, { format: 'png' });
});

test.for(['png', 'tiff', 'jpg', 'webp'])(
  'on a disk that is full an older %s stays whole, and nothing lies beside it',
  async (extension, context) => {
    const disk = diskOf(context, 256);
    const path = join(disk, `wall.${extension}`);
    writeFileSync(path, 'older');
    fillUp(disk);
    await expect(writePicture(path, toRows(noise))).rejects.toMatchObject({
      code: 'unwritable',
      message: `${path} cannot be written: the disk is full`,
    });
    expect(readFileSync(path, 'utf8')).toBe('older');
    expect(readdirSync(disk).sort()).toEqual(['filler', `wall.${extension}`]);
  },
);

// Two pictures of 20 KB into a folder that is made for them, and then no more.
test('where the disk is full before all linked pictures are written, neither they nor their folder stay', (context) => {
  const disk = diskOf(context, 256);
  const image = (x: number, bytes: Buffer): string =>
    `<image x="${x}" width="30" height="30" href="data:image/png;base64,${bytes.toString('base64')}"/>`;
  const folder = tempFolder();
  const other = Buffer.from(photo);
  const drawing = `<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="30mm" viewBox="0 0 60 30">${image(0, photo)}${image(30, other)}</svg>`;
  writeFileSync(join(folder, 'walls.svg'), drawing);
  writeFileSync(join(disk, 'out.svg'), 'older');
  fillUp(disk);
  const words = [
    'slim',
    'walls.svg',
    '--link',
    join(disk, 'pictures'),
    '-o',
    join(disk, 'out.svg'),
  ];
  const { exit, stderr } = runGaugerod(words, folder);
  expect([exit, stderr]).toEqual([
    1,
    expect.stringMatching(/^error: \S+pictures\S+ cannot be written: the disk is full\n$/),
  ]);
  expect(readdirSync(disk).sort()).toEqual(['filler', 'out.svg']);
  expect(readFileSync(join(disk, 'out.svg'), 'utf8')).toBe('older');
});

test('a disk that is read-only is named before anything is done', (context) => {
  const disk = diskOf(context, 256);
  writeFileSync(join(disk, 'wall.png'), photo);
  writeFileSync(join(disk, 'tile.png'), 'older');
  expect(spawnSync('mount', ['-o', 'remount,ro', disk]).status).toBe(0);
  for (const output of ['tile.png', 'new.png']) {
    expect(runGaugerod(['mend', 'wall.png', '-o', output], disk)).toEqual({
      exit: 1,
      stdout: '',
      stderr: `error: ${output} cannot be written: the disk is read-only\n`,
    });
  }
  expect(readdirSync(disk).sort()).toEqual(['tile.png', 'wall.png']);
  expect(readFileSync(join(disk, 'tile.png'), 'utf8')).toBe('older');
});
