import { spawn } from 'node:child_process';
import {
  chmodSync,
  existsSync,
  linkSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { checkOutput, type RowSource, TextureError, writePicture } from '@gaugerod/core';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { makePipe } from '../../support/make-pipe.js';

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'gaugerod-write-'));
  writeFileSync(join(folder, 'wall.png'), 'the photo');
});
afterEach(() => {
  rmSync(folder, { recursive: true });
});

const onUnix = process.platform === 'win32' ? test.skip : test;

const picture: RowSource = {
  width: 2,
  height: 2,
  dpi: null,
  rows: () => [new Uint8Array(6), new Uint8Array(6)],
};

async function refusal(path: string, inputs: readonly string[] = []): Promise<TextureError> {
  const before = readdirSync(folder);
  const caught: unknown = await writePicture(path, picture, { inputs }).catch((e: unknown) => e);
  expect(readdirSync(folder)).toEqual(before);
  expect(readFileSync(join(folder, 'wall.png'), 'utf8')).toBe('the photo');
  if (caught instanceof TextureError) return caught;
  throw new Error(`expected a TextureError, got ${String(caught)}`);
}

test('a picture is written where it was asked for, and nothing else is left', async () => {
  await writePicture(join(folder, 'front.png'), picture, { inputs: [join(folder, 'wall.png')] });
  expect(readdirSync(folder)).toEqual(['front.png', 'wall.png']);
});

test('the input is never written over', async () => {
  const wall = join(folder, 'wall.png');
  expect(await refusal(wall, [wall])).toMatchObject({
    code: 'output-is-input',
    message: `${wall} is the input, which is never written over`,
    hint: 'give the output another name',
  });
  const roundabout = join(folder, 'x', '..', 'wall.png');
  mkdirSync(join(folder, 'x'));
  expect((await refusal(roundabout, [wall])).code).toBe('output-is-input');
});

onUnix('the input is known by any of its names', async () => {
  const wall = join(folder, 'wall.png');
  linkSync(wall, join(folder, 'hard.png'));
  symlinkSync(wall, join(folder, 'soft.png'));
  symlinkSync(folder, join(folder, 'here'));
  for (const name of ['hard.png', 'soft.png', join('here', 'wall.png')]) {
    const { code, message } = await refusal(join(folder, name), [wall]);
    expect(code).toBe('output-is-input');
    expect(message).toContain('is the same file as the input');
  }
  // The other way round: the input was named by its link.
  expect((await refusal(wall, [join(folder, 'soft.png')])).code).toBe('output-is-input');
});

test('a folder that is not there is named, and not made', async () => {
  const path = join(folder, 'none', 'x.png');
  expect(await refusal(path)).toMatchObject({
    code: 'no-output-folder',
    message: `the folder of ${path} does not exist`,
    hint: 'make the folder first',
  });
});

test('a file where a folder should be is refused', async () => {
  expect((await refusal(join(folder, 'wall.png', 'x.png'))).code).toBe('no-output-folder');
});

test('a folder is no output', async () => {
  expect(await refusal(folder)).toMatchObject({
    code: 'output-not-a-file',
    message: `${folder} is a folder, not a file`,
  });
});

onUnix('devices and pipes are no outputs', async () => {
  expect((await refusal('/dev/null')).code).toBe('output-not-a-file');
  makePipe(join(folder, 'pipe.png'));
  expect((await refusal(join(folder, 'pipe.png'))).code).toBe('output-not-a-file');
});

onUnix('links that lead nowhere or round in a circle are refused', async () => {
  symlinkSync(join(folder, 'loop.png'), join(folder, 'loop.png'));
  symlinkSync('gone.png', join(folder, 'dangling.png'));
  expect((await refusal(join(folder, 'loop.png'))).code).toBe('unwritable');
  expect((await refusal(join(folder, 'dangling.png'))).message).toContain(
    'is a symbolic link to gone.png, which does not exist',
  );
});

test.each([
  ['front.heic', 'ends with .heic', 'name it front.png'],
  ['front.bmp', 'ends with .bmp', 'name it front.png'],
  ['front', 'has no extension', 'name it front.png'],
])('%s is refused with a name that would do', async (name, what, hint) => {
  const path = join(folder, name);
  const refused = await refusal(path);
  expect(refused.code).toBe('unsupported-output');
  expect(refused.message).toBe(
    `${path} ${what}, and what is written is .png, .tif, .tiff, .jpg, .jpeg or .webp`,
  );
  expect(refused.hint).toBe(hint);
});

test.each([
  ['an empty name', (): string => ''],
  ['a NUL', (): string => join(folder, 'a\0b.png')],
  ['a name of 300 letters', (): string => join(folder, `${'n'.repeat(300)}.png`)],
])('%s is refused on one line', async (_, path) => {
  const { code, message } = await refusal(path());
  expect(code).toBe('unwritable');
  expect(message).toMatch(/^[^\n\0]+$/);
});

test('a name of 255 bytes is written', async () => {
  const name = `${'ö'.repeat(125)}x.png`;
  await writePicture(join(folder, name), picture);
  expect(existsSync(join(folder, name))).toBe(true);
});

test('an extension in capitals will do', async () => {
  await expect(checkOutput(join(folder, 'FRONT.PNG'))).resolves.toMatchObject({ mode: null });
});

onUnix('an older file gives way and keeps its permissions', async () => {
  const path = join(folder, 'front.png');
  writeFileSync(path, 'old');
  chmodSync(path, 0o640);
  await writePicture(path, picture);
  expect(statSync(path).mode & 0o777).toBe(0o640);
  expect(readFileSync(path).subarray(1, 4).toString()).toBe('PNG');
});

onUnix('a link stays a link, and what it leads to is replaced', async () => {
  mkdirSync(join(folder, 'out'));
  writeFileSync(join(folder, 'out', 'real.png'), 'old');
  symlinkSync(join('out', 'real.png'), join(folder, 'front.png'));
  await writePicture(join(folder, 'front.png'), picture);
  expect(lstatSync(join(folder, 'front.png')).isSymbolicLink()).toBe(true);
  expect(
    readFileSync(join(folder, 'out', 'real.png'))
      .subarray(1, 4)
      .toString(),
  ).toBe('PNG');
  expect(readdirSync(join(folder, 'out'))).toEqual(['real.png']);
});

test('an error half-way leaves the older file whole and nothing beside it', async () => {
  const path = join(folder, 'front.png');
  writeFileSync(path, 'old');
  const failing: RowSource = {
    ...picture,
    height: 5000,
    width: 3000,
    *rows() {
      for (let y = 0; y < 3000; y++) yield new Uint8Array(9000);
      throw new Error('no more rows');
    },
  };
  await expect(writePicture(path, failing)).rejects.toThrow('no more rows');
  expect(readFileSync(path, 'utf8')).toBe('old');
  expect(readdirSync(folder)).toEqual(['front.png', 'wall.png']);
});

// Writes for ever, or for minutes, until it is told to stop; built code, as users run it.
const endless = (path: string, height: number): string => `
  const { writePicture } = await import(${JSON.stringify(
    new URL('../../../packages/core/dist/index.js', import.meta.url).href,
  )});
  const row = new Uint8Array(30000);
  await writePicture(${JSON.stringify(path)}, {
    width: 10000, height: ${height}, dpi: null,
    *rows() {
      for (;;) {
        const end = performance.now() + ${height < 1e6 ? 30 : 0};
        while (performance.now() < end);
        yield row;
      }
    },
  });`;

// A JPEG and a WebP are held whole before they are encoded.
onUnix.each([
  ['SIGINT', 130, 'front.png', 2 ** 24],
  ['SIGTERM', 143, 'front.png', 2 ** 24],
  ['SIGTERM', 143, 'front.tif', 4000],
  ['SIGTERM', 143, 'front.jpg', 4000],
  ['SIGINT', 130, 'front.webp', 4000],
] as const)('%s leaves nothing behind: exit %d, %s', async (signal, status, name, height) => {
  const path = join(folder, name);
  writeFileSync(path, 'old');
  const child = spawn(process.execPath, ['--input-type=module', '-e', endless(path, height)], {
    stdio: 'ignore',
  });
  const ended = new Promise<number | null>((resolve) => child.once('exit', resolve));
  await expect.poll(() => readdirSync(folder).length, { timeout: 120_000 }).toBe(3);
  child.kill(signal);
  expect(await ended).toBe(status);
  expect(readdirSync(folder)).toEqual([name, 'wall.png']);
  expect(readFileSync(path, 'utf8')).toBe('old');
});
