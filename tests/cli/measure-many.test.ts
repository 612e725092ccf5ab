import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { drawTexture, drawWall, encodePhoto } from '@gaugerod/fixtures';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { beforeAll, expect, test } from 'vitest';
import { plainBrick } from '../support/plain-brick.js';
import { atHome, runHere } from '../support/run-gaugerod.js';
import { tempFolder } from '../support/temp-folder.js';

const main = fileURLToPath(new URL('../../packages/cli/dist/main.js', import.meta.url));
const schemaFile = new URL('../../packages/core/schema/results.schema.json', import.meta.url);
const schema = JSON.parse(readFileSync(fileURLToPath(schemaFile), 'utf8')) as object;
const isResult = new Ajv2020({ strict: false }).compile(schema);

let wall: Buffer;
let plain: Buffer;

beforeAll(async () => {
  wall = await encodePhoto(drawWall(plainBrick).raster, { format: 'png' });
  const { raster } = drawTexture({ texture: 'rust', width: 300, height: 200, seed: 1 });
  plain = await encodePhoto(raster, { format: 'png' });
});

function photosIn(folder: string): string {
  mkdirSync(join(folder, 'photos', 'older'), { recursive: true });
  writeFileSync(join(folder, 'photos', 'a wall.png'), wall);
  writeFileSync(join(folder, 'photos', 'b.jpg'), 'a wall, seen from the quay\n');
  writeFileSync(join(folder, 'photos', 'c.PNG'), wall.subarray(0, wall.length / 2));
  writeFileSync(join(folder, 'photos', 'd.png'), plain);
  writeFileSync(join(folder, 'photos', 'e.png'), wall);
  // Passed over: hidden, no picture by its name, in a folder inside it.
  writeFileSync(join(folder, 'photos', '.f.png'), wall);
  writeFileSync(join(folder, 'photos', 'notes.txt'), 'none');
  writeFileSync(join(folder, 'photos', 'older', 'g.png'), wall);
  return folder;
}

interface Line {
  readonly photo: { readonly path: string };
  readonly mmPerPx?: { readonly y: number };
  readonly error?: { readonly code: string };
}

const linesOf = (stdout: string): readonly Line[] =>
  stdout
    .trimEnd()
    .split('\n')
    .map((line) => JSON.parse(line) as Line);

const course = ['--course', 'uk-metric'];

test('a folder of photos: one JSON object a line, failures among them, and exit code 1', async () => {
  const folder = photosIn(tempFolder());
  const { exit, stdout, stderr } = await runHere(
    ['measure', 'photos', ...course, '--json'],
    folder,
  );
  const lines = linesOf(stdout);
  for (const line of lines) expect(isResult(line), JSON.stringify(isResult.errors)).toBe(true);
  expect(lines.map(({ photo, error }) => [photo.path, error?.code])).toEqual([
    [join('photos', 'a wall.png'), undefined],
    [join('photos', 'b.jpg'), 'not-a-picture'],
    [join('photos', 'c.PNG'), 'damaged-picture'],
    [join('photos', 'd.png'), 'no-courses'],
    [join('photos', 'e.png'), undefined],
  ]);
  // 75 mm on 25 px.
  for (const { mmPerPx } of lines)
    if (mmPerPx) expect(Math.abs(mmPerPx.y / 3 - 1)).toBeLessThan(0.01);
  expect(exit).toBe(1);
  const errors = stderr.split('\n').filter((line) => line.startsWith('error: '));
  expect(errors.map((line) => /b\.jpg|c\.PNG|d\.png/.exec(line)?.[0])).toEqual([
    'b.jpg',
    'c.PNG',
    'd.png',
  ]);
});

test('for people: a block for each, and how many came to what', async () => {
  const folder = photosIn(tempFolder());
  const words = ['measure', 'photos/a wall.png', 'photos/b.jpg', 'photos/missing.png', ...course];
  const { exit, stdout } = await runHere(words, folder);
  expect(stdout).toMatch(
    /^photos\/a wall\.png, 360 x 260 px\n( {2}\S.*\n)+\n3 photos: 1 measured, 2 not measured\n$/,
  );
  expect(exit).toBe(1);
  const good = await runHere(['measure', 'photos/e.png', 'photos/a wall.png'], folder);
  expect(good.stdout).toMatch(/\n2 photos: 0 measured, 2 to be told what their courses are\n$/);
  expect(good.exit).toBe(0);
});

test('one photo is one object in one line', async () => {
  const folder = photosIn(tempFolder());
  const good = await runHere(['measure', 'photos/e.png', ...course, '--json'], folder);
  expect([good.exit, linesOf(good.stdout).length]).toEqual([0, 1]);
  const bad = await runHere(['measure', 'photos/b.jpg', ...course, '--json'], folder);
  expect([bad.exit, linesOf(bad.stdout).length]).toEqual([1, 1]);
});

test('each measurement is kept beside its own photo', async () => {
  const folder = tempFolder();
  for (const name of ['a.png', 'b.png']) writeFileSync(join(folder, name), wall);
  const { raster } = drawWall({ ...plainBrick, seed: 8 });
  writeFileSync(join(folder, 'a.jpg'), await encodePhoto(raster, { format: 'jpeg' }));
  const words = ['measure', 'a.png', 'b.png', 'a.jpg', ...course, '--save', '--licence', 'CC0'];
  const { exit, stdout, stderr } = await runHere(words, folder);
  expect(stdout).toContain('kept in       a.surface.json');
  expect(stdout).toContain('kept in       b.surface.json');
  // A third photo would be kept in the first one's place.
  expect(stderr).toContain('a.jpg');
  expect(exit).toBe(1);
  expect(readFileSync(join(folder, 'a.surface.json'), 'utf8')).toContain('"file": "a.png"');
  expect(readdirSync(folder).filter((name) => name.startsWith('.'))).toEqual([]);
});

test.each([
  ['--overlay', ['--overlay', 'out.png']],
  ['--page', ['--page', 'out.html']],
  ['--span', ['--span', '1,1 1,51', '--length', '600mm']],
  ['--corners', ['--corners', '1,1 90,1 90,60 1,60', '--real-size', '3x2m']],
  ['--courses', ['--courses', '8']],
])('%s is of one photo, and refused beside several before any is read', async (flag, words) => {
  const folder = photosIn(tempFolder());
  const given = flag === '--courses' ? [...course, ...words] : words;
  const { exit, stdout, stderr } = await runHere(['measure', 'photos', ...given], folder);
  expect([exit, stdout]).toEqual([2, '']);
  expect(stderr).toBe(
    `error: expected one photo beside ${flag}, got 5\nhint: measure that photo alone\n`,
  );
  expect(existsSync(join(folder, 'out.png')) || existsSync(join(folder, 'out.html'))).toBe(false);
});

test('options that make no sense together are refused once, not for every photo', async () => {
  const folder = photosIn(tempFolder());
  const { exit, stderr } = await runHere(['measure', 'photos', '--licence', 'CC0'], folder);
  expect(exit).toBe(2);
  expect(stderr).toMatch(
    /^error: expected a measurement to be kept with it [^\n]*\nhint: [^\n]*\n$/,
  );
});

test('a folder that cannot be listed is an answer among the others', async () => {
  const folder = photosIn(tempFolder());
  mkdirSync(join(folder, 'empty'));
  const words = ['measure', 'empty', 'photos/e.png', 'missing', 'photos/a wall.png', ...course];
  const { exit, stdout } = await runHere([...words, '--json'], folder);
  expect(linesOf(stdout).map(({ photo, error }) => [photo.path, error?.code])).toEqual([
    ['empty', 'no-file'],
    ['photos/e.png', undefined],
    ['missing', 'no-file'],
    ['photos/a wall.png', undefined],
  ]);
  expect(exit).toBe(1);
});

test('a file of one photo is refused beside a folder, also where that holds one', async () => {
  const folder = tempFolder();
  mkdirSync(join(folder, 'photos'));
  writeFileSync(join(folder, 'photos', 'a.png'), wall);
  const words = ['measure', 'photos', ...course, '--overlay', 'out.png'];
  const { exit, stderr } = await runHere(words, folder);
  expect(exit).toBe(2);
  expect(stderr).toBe(
    'error: expected one photo beside --overlay, got a folder\nhint: measure that photo alone\n',
  );
});

test('each warning tells which photo it is of, whatever that is called', async () => {
  const folder = tempFolder();
  for (const name of ['a', 'us']) writeFileSync(join(folder, name), wall);
  // DF bricks are 250 mm on 62.5 (DIN 105, DIN 4172), four courses long; those of the wall are three.
  const { stderr } = await runHere(['measure', 'a', 'us', '--course', 'de-df'], folder);
  expect(stderr.split('\n')).toEqual([
    expect.stringMatching(/^warning: a: a brick is /),
    expect.stringMatching(/^warning: us: a brick is /),
    '',
  ]);
});

test('a folder without pictures is refused', async () => {
  const folder = tempFolder();
  mkdirSync(join(folder, 'photos'));
  const { exit, stderr } = await runHere(['measure', 'photos', ...course], folder);
  expect(exit).toBe(1);
  expect(stderr).toMatch(/^error: photos is a folder without pictures in it\nhint: [^\n]*\n$/);
});

// bash alone tells how the first of two commands ended.
test.skipIf(process.platform === 'win32')(
  'a reader that has read enough ends the work, and quietly',
  () => {
    const folder = tempFolder();
    const names = Array.from({ length: 60 }, (_, i) => `wall-${i}.png`);
    for (const name of names) writeFileSync(join(folder, name), wall);
    const line = '{ "$@"; echo "exit $?" >&2; } | head -n 1';
    const { stdout, stderr } = spawnSync(
      'bash',
      [
        '-c',
        line,
        'bash',
        process.execPath,
        main,
        'measure',
        ...names,
        ...course,
        '--save',
        '--json',
      ],
      { cwd: folder, encoding: 'utf8', env: { ...process.env, ...atHome(folder) } },
    );
    expect(linesOf(stdout)).toHaveLength(1);
    expect(stderr).toBe('exit 0\n');
    expect(readdirSync(folder).filter((name) => name.endsWith('.json')).length).toBeLessThan(30);
  },
);
