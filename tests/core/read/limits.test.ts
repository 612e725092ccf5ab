import { mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import {
  buildJob,
  dressDrawing,
  measurePhotos,
  modelScale,
  noSettings,
  readPhoto,
  slimDrawing,
} from '@gaugerod/core';
import { drawWall, encodePhoto } from '@gaugerod/fixtures';
import { expect, test } from 'vitest';
import { moreThan } from '../../../packages/core/src/limits/over-limit.js';
import { parseCount, parseSeconds } from '../../../packages/core/src/limits/parse-limit.js';
import { openPrint } from '../../../packages/core/src/read/open-print.js';
import { corners, pngFile } from '../../support/picture-files.js';
import { tempFolder } from '../../support/temp-folder.js';

// What a file asks for is made just under a limit, and just over it; then the limit is lifted as its message says.

interface Told {
  readonly code: string;
  readonly limit: string;
  readonly message: string;
}

async function refusal(work: Promise<unknown>): Promise<Told> {
  const error: unknown = await work.then(
    () => expect.unreachable(),
    (cause: unknown) => cause,
  );
  return error as Told;
}

function at(name: string, content: string | Buffer): string {
  const path = join(tempFolder(), name);
  writeFileSync(path, content);
  return path;
}

const svg = (inner: string): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="30mm" viewBox="0 0 60 30">${inner}</svg>`;
const slim = (path: string, limits: object): Promise<unknown> =>
  slimDrawing(path, { report: true, ...limits });

test('a picture of as many pixels as are allowed is read, and one of more is refused before it is decoded', async () => {
  const path = at('wall.png', pngFile({ width: 1200, height: 1000 }));
  await expect(readPhoto(path, { mostPixels: 1_200_000 })).resolves.toMatchObject({ width: 1200 });
  expect(await refusal(readPhoto(path, { mostPixels: 1_199_999 }))).toMatchObject({
    code: 'too-large',
    limit: 'pixels',
    message: `${path} says that it is 1200 x 1000 pixels, 1.2 million, more than 1.199999 million: --most-pixels 1.2M reads it`,
  });
});

// A limit is told as it is, or whoever lifts it past what they read is refused again.
test('what is allowed is told to the last digit, and what there is as more than that', () => {
  expect(moreThan(3e6, 1.5e6)).toBe('3 million, more than 1.5 million');
  expect(moreThan(2e6, 5e5)).toBe('2 million, more than 0.5 million');
  expect(moreThan(1.4e6, 1e5)).toBe('1.4 million, more than 0.1 million');
  expect(moreThan(1_234_568, 1_234_567)).toBe('1.234568 million, more than 1.234567 million');
  expect(moreThan(5000, 300)).toBe('5000, more than 300');
});

// Of 100,000 x 16 pixels and more, whose rows a decoder holds by the dozen.
test('a side past its bound is refused from the header, of a photo and of what goes on pages', async () => {
  const long = (width: number): string =>
    at('long.png', pngFile({ width, height: 2, depth: 1, colour: 0 }));
  await expect(readPhoto(long(100_000))).resolves.toMatchObject({ width: 100_000 });
  const path = long(100_001);
  expect(await refusal(readPhoto(path, { mostPixels: 1e9 }))).toMatchObject({
    code: 'too-large',
    message: `${path} says that it is 100001 x 2 pixels, more than 100000 on a side`,
    hint: 'crop it or make it smaller first; sheet lays a finished one of up to 300000 on pages as it is',
  });
  const print = (width: number): Promise<unknown> => {
    const bytes = pngFile({ width, height: 2, depth: 1, colour: 0 });
    return openPrint('long.png', bytes, { change: null, blanks: false });
  };
  await expect(print(300_000)).resolves.toMatchObject({ pixels: { width: 300_000 } });
  expect((await refusal(print(300_001))).message).toBe(
    'long.png says that it is 300001 x 2 pixels, more than 300000 on a side',
  );
});

test('of many photos the one over a limit names it', async () => {
  const path = at('wall.png', pngFile({ width: 60, height: 40 }));
  for await (const { outcome } of measurePhotos([path], { mostPixels: 100 })) {
    expect(outcome).toMatchObject({ ok: false, code: 'too-large', limit: 'pixels' });
  }
});

test('more pixels than a picture usually holds are read where someone says so', async () => {
  const path = at('long.png', pngFile({ width: 50_000, height: 2001, depth: 1, colour: 0 }));
  const before = process.memoryUsage().rss;
  const { message } = await refusal(readPhoto(path));
  expect(message).toMatch(/100.05 million, more than 100 million: --most-pixels 101M reads it$/);
  expect(process.memoryUsage().rss - before).toBeLessThan(50e6);
  // The lines after the first thousand are not there: allowed, it is decoded, and found out.
  expect(await refusal(readPhoto(path, { mostPixels: 101e6 }))).toMatchObject({
    code: 'damaged-picture',
  });
});

test('a file of as many bytes as are allowed is read, and one of more is not opened', async () => {
  const bytes = pngFile({ width: 60, height: 40 });
  const path = at('wall.png', bytes);
  await expect(readPhoto(path, { mostBytes: bytes.length })).resolves.toMatchObject({ width: 60 });
  expect(await refusal(readPhoto(path, { mostBytes: bytes.length - 1 }))).toMatchObject({
    code: 'too-large',
    limit: 'bytes',
    message: `${path} holds ${bytes.length} bytes, more than ${bytes.length - 1} bytes: --most-bytes ${bytes.length} reads it`,
  });
});

// ITU-T T.81, B.2.3: a scan of one component, of which it sends nothing new.
test('as many scans are read as may be done in the time that decoding is given', async () => {
  const jpeg = await corners().jpeg({ progressive: true }).toBuffer();
  const scan = Buffer.from([0xff, 0xda, 0, 8, 1, 1, 0, 1, 63, 0x00, 0]);
  const own = jpeg.toString('latin1').split('\xff\xda').length - 1;
  const withScans = (count: number): Buffer =>
    Buffer.concat([
      jpeg.subarray(0, -2),
      ...Array<Buffer>(count - own).fill(scan),
      jpeg.subarray(-2),
    ]);
  await expect(readPhoto(at('wall.jpg', withScans(100)))).resolves.toMatchObject({ width: 24 });
  const path = at('wall.jpg', withScans(101));
  expect(await refusal(readPhoto(path))).toMatchObject({
    code: 'too-large',
    limit: 'seconds',
    message: `${path} is built of 101 scans, too many for 10 s: --most-seconds 11 waits longer`,
  });
  await expect(readPhoto(path, { mostSeconds: 11 })).resolves.toMatchObject({ width: 24 });
});

test('a drawing of as many elements as are allowed is read', async () => {
  const path = at('front.svg', svg('<g/>'.repeat(9)));
  await expect(slim(path, { mostElements: 10 })).resolves.toMatchObject({ ok: true });
  expect(await refusal(slim(path, { mostElements: 9 }))).toMatchObject({
    code: 'too-large',
    limit: 'elements',
    message: `${path} holds more than 9 elements: --most-elements 18 reads it`,
  });
});

test('elements lie as deep in one another as is allowed, and a thousand deep at most', async () => {
  const nested = (depth: number): string => svg('<g>'.repeat(depth - 1) + '</g>'.repeat(depth - 1));
  const path = at('front.svg', nested(251));
  await expect(slim(at('front.svg', nested(250)), {})).resolves.toMatchObject({ ok: true });
  expect(await refusal(slim(path, {}))).toMatchObject({
    code: 'too-large',
    limit: 'depth',
    message: `${path} is nested more than 250 elements deep: --most-depth 500 reads it`,
  });
  await expect(slim(path, { mostDepth: 251 })).resolves.toMatchObject({ ok: true });
  // Whatever walks through it gets to the bottom.
  const deep = at('front.svg', nested(1000));
  await expect(slim(deep, { mostDepth: 1000 })).resolves.toMatchObject({ ok: true });
  const options = { paint: [], scale: { name: null, region: null, ratio: modelScale(148) } };
  await dressDrawing(deep, {
    ...options,
    output: join(tempFolder(), 'out.svg'),
    mostDepth: 1000,
  } as never).catch((cause: unknown) => {
    expect(String(cause)).not.toMatch(/call stack/);
  });
  expect((await refusal(slim(at('f.svg', nested(1001)), { mostDepth: 1000 }))).message).toMatch(
    /more than 1000 elements deep$/,
  );
});

test('a drawing leads to as many files as are allowed', async () => {
  const images = (count: number): string =>
    Array.from({ length: count }, (_, i) => `<image width="1" height="1" href="p${i}.png"/>`).join(
      '',
    );
  await expect(slim(at('a.svg', svg(images(3))), { mostLinks: 3 })).resolves.toMatchObject({
    ok: true,
  });
  expect(await refusal(slim(at('a.svg', svg(images(4))), { mostLinks: 3 }))).toMatchObject({
    code: 'too-large',
    limit: 'links',
    message: expect.stringMatching(
      /leads to more than 3 files: --most-links 6 follows them$/,
    ) as string,
  });
  // One file, however often.
  const same = '<image width="1" height="1" href="p.png"/>'.repeat(50);
  await expect(slim(at('a.svg', svg(same)), { mostLinks: 1 })).resolves.toMatchObject({ ok: true });
});

test('thousands of links to what is not there are looked for at once', async () => {
  const folder = tempFolder();
  mkdirSync(join(folder, 'photos'));
  for (let i = 0; i < 300; i++) writeFileSync(join(folder, 'photos', `other${i}.png`), '');
  const images = Array.from(
    { length: 5000 },
    (_, i) => `<image width="1" height="1" href="p${i}.png"/>`,
  );
  writeFileSync(join(folder, 'front.svg'), svg(images.join('')));
  const before = process.cpuUsage();
  await slim(join(folder, 'front.svg'), {});
  const { user, system } = process.cpuUsage(before);
  expect(user + system).toBeLessThan(10e6);
  expect(readdirSync(folder)).toEqual(['front.svg', 'photos']);
});

// A photo of 360 x 300 pixels, in threads and without.
test.each([1, 2])('limits reach whatever a build reads, %i at a time', async (jobs) => {
  const folder = tempFolder();
  const wall = drawWall({ bond: 'flemish', coursePx: 24.5, width: 360, height: 300, seed: 801 });
  writeFileSync(join(folder, 'red.png'), await encodePhoto(wall.raster, { format: 'png' }));
  const path = join(folder, 'works.yaml');
  const surface = 'surfaces: { shed: { photo: red.png, course: uk-metric } }';
  const part = 'parts: { gable: { surface: shed, size: 20x10mm } }';
  writeFileSync(path, `gaugerod: 1\nscale: N-UK\ndpi: 150\n${surface}\n${part}\n`);
  const failed = await buildJob(path, { jobs, mostPixels: 107_999 });
  expect(failed).toMatchObject({
    ok: false,
    message: expect.stringContaining('--most-pixels 108k reads it') as string,
    limit: 'pixels',
  });
  const set = { text: '100k', file: 'config.yaml' };
  const settings = { ...noSettings, values: { mostPixels: set } };
  expect(await buildJob(path, { jobs, settings })).toMatchObject({ ok: false });
  // What is given goes before what is set.
  expect(await buildJob(path, { jobs, settings, mostPixels: 108_000 })).toMatchObject({ ok: true });
});

test('numbers are typed with a letter for thousands and more', () => {
  for (const [text, count] of [
    ['140M', 140e6],
    ['1.5G', 1.5e9],
    ['200 k', 200_000],
    ['140000000', 140e6],
    ['600MB', 600e6],
    ['1gb', 1e9],
  ] as const) {
    expect(parseCount(text, '--most-bytes', 'mostBytes')).toBe(count);
  }
  for (const text of [
    '',
    ' ',
    '0',
    '-1',
    '1e9',
    'NaN',
    '2.1G',
    '１M',
    '1MM',
    'M',
    '0x10',
    '1,5M',
  ]) {
    expect(() => parseCount(text, '--most-bytes', 'mostBytes')).toThrow(
      /^expected a number from 1 to 2000M \(such as 600M\) for --most-bytes, got /,
    );
  }
  expect(() => parseCount('140MB', '--most-pixels', 'mostPixels')).toThrow('--most-pixels');
  expect(['60', '60s', '2.5', '0.1'].map((text) => parseSeconds(text, 'n'))).toEqual([
    60, 60, 2.5, 0.1,
  ]);
  for (const text of ['', '0', '0.01', '3601', '-1', '1m', 'Infinity']) {
    expect(() => parseSeconds(text, '--most-seconds')).toThrow('expected 0.1 to 3600 seconds');
  }
});
