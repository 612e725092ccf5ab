import {
  mkdirSync,
  mkdtempSync,
  readdirSync,
  rmSync,
  symlinkSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { readPhoto, type ReadPhotoOptions, TextureError } from '@gaugerod/core';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { makePipe } from '../../support/make-pipe.js';
import { corners, exifBlock, pngChunk, pngFile } from '../../support/picture-files.js';

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'gaugerod-refuse-'));
});
afterEach(() => {
  rmSync(folder, { recursive: true });
});

const onUnix = process.platform === 'win32' ? test.skip : test;

async function refusal(path: string, options: ReadPhotoOptions = {}): Promise<TextureError> {
  const caught: unknown = await readPhoto(path, options).catch((cause: unknown) => cause);
  if (!(caught instanceof TextureError)) throw new Error(`no refusal: ${String(caught)}`);
  // One line, nothing that draws on a terminal, no full stop.
  expect(`${caught.message}${caught.hint ?? ''}`).toMatch(/^[^\p{Cc}]+[^.\p{Cc}]$/u);
  return caught;
}

async function refuse(bytes: Uint8Array | string, name = 'wall.jpg'): Promise<TextureError> {
  writeFileSync(join(folder, name), bytes);
  return refusal(join(folder, name));
}

const named = (text: string): Uint8Array => Buffer.from(text, 'latin1');

test.each([
  ['HEIC', named('\0\0\0\x18ftypheic\0\0\0\0mif1heic')],
  ['HEIC', named('\0\0\0\x18ftypmif1\0\0\0\0mif1heix')],
  ['BMP', named('BM\x36\0\0\0\0\0\0\0\x36\0\0\0')],
  ['a layered PSD file', named('8BPS\0\x01\0\0\0\0\0\0')],
  ['PDF', named('%PDF-1.7\n')],
  ['JPEG XL', named('\xff\x0a\xfa\x1f')],
  ['JPEG XL', named('\0\0\0\x0cJXL \r\n\x87\n')],
  ['JPEG 2000', named('\0\0\0\x0cjP  \r\n\x87\n')],
  ['OpenEXR', named('\x76\x2f\x31\x01\x02\0\0\0')],
  ['a Canon raw photo (CR2)', named('II*\0\x10\0\0\0CR\x02\0')],
])('%s is refused by name, with what to do', async (name, bytes) => {
  const { code, message, hint } = await refuse(bytes);
  expect(code).toBe('unsupported-format');
  expect(message).toBe(`${join(folder, 'wall.jpg')} is ${name}, which is not read`);
  expect(hint).toBe('save it as JPEG or PNG');
});

test('a drawing is not a photo', async () => {
  const svg = '<?xml version="1.0"?><svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"/>';
  expect((await refuse(svg, 'wall.png')).message).toContain('is an SVG drawing, not a photo');
});

test('a raw photo in TIFF is not taken for its thumbnail', async () => {
  // DNG 1.4: tag 50706, DNGVersion.
  const dng = exifBlock([
    [256, 16],
    [257, 16],
    [50_706, 1],
  ]);
  expect((await refuse(dng)).message).toContain('is a raw photo (DNG), which is not read');
});

test.each([
  ['text', 'Eight courses are 600 mm.\n', 'holds text, not a picture'],
  ['HTML', '<!doctype html><title>wall</title>', 'holds text, not a picture'],
  ['nothing', '', 'is empty'],
  ['zeros', '\0'.repeat(500), 'is not a picture'],
  ['worn memory', '\xff'.repeat(500), 'is not a picture'],
  ['a mark of UTF-16 before it', `\xff\xfe${'\xff'.repeat(498)}`, 'is not a picture'],
  ['UTF-16 text', '\xff\xfew\0a\0l\0l\0', 'holds text, not a picture'],
  ['a program', '\x7fELF\x02\x01\x01\0', 'is not a picture'],
  ['a film', '\0\0\0\x18ftypisom\0\0\0\0isomiso2', 'holds a film or sound, not a picture'],
])('%s is no picture', async (_, text, what) => {
  const { code, message } = await refuse(named(text));
  expect(code).toBe('not-a-picture');
  expect(message).toBe(`${join(folder, 'wall.jpg')} ${what}`);
});

test('a file that is not there is named', async () => {
  const path = join(folder, 'gone.jpg');
  expect(await refusal(path)).toMatchObject({ code: 'no-file', message: `${path} does not exist` });
});

test('a folder is not a file', async () => {
  mkdirSync(join(folder, 'wall.jpg'));
  expect(await refusal(join(folder, 'wall.jpg'))).toMatchObject({
    code: 'not-a-file',
    message: `${join(folder, 'wall.jpg')} is a folder, not a file`,
  });
});

onUnix('a pipe and a device are refused without being opened', async () => {
  makePipe(join(folder, 'pipe.jpg'));
  expect((await refusal(join(folder, 'pipe.jpg'))).message).toContain('is a pipe, not a file');
  expect((await refusal('/dev/zero')).message).toBe('/dev/zero is a device, not a file');
});

onUnix('links that go round in a circle are refused', async () => {
  symlinkSync(join(folder, 'b.jpg'), join(folder, 'a.jpg'));
  symlinkSync(join(folder, 'a.jpg'), join(folder, 'b.jpg'));
  expect((await refusal(join(folder, 'a.jpg'))).message).toContain(
    'is a symbolic link that leads round in a circle',
  );
});

test.each([
  ['a name of 300 letters', `${'w'.repeat(300)}.jpg`],
  ['a NUL', 'wall\0.jpg'],
  ['a file where a folder should be', join('wall.jpg', 'wall.jpg')],
])('%s is no file', async (_, name) => {
  writeFileSync(join(folder, 'wall.jpg'), 'x');
  expect((await refusal(join(folder, name))).code).toBe('no-file');
});

test('an empty name is refused', async () => {
  expect((await refusal('')).message).toBe('the name of the file is empty');
});

onUnix('a name cannot draw on the terminal', async () => {
  const { message } = await refuse('text', 'a\nerror: b\u001b[2J\u202e.jpg');
  expect(message).toContain(String.raw`a\nerror: b\u001b[2J\u202e.jpg holds text, not a picture`);
});

test('a file over the limit is refused before it is read', async () => {
  const path = join(folder, 'sparse.png');
  writeFileSync(path, pngFile({ width: 4, height: 4 }));
  truncateSync(path, 3e9);
  const before = process.cpuUsage();
  expect(await refusal(path)).toMatchObject({
    code: 'too-large',
    message: `${path} holds 3000 MB, more than 512 MB`,
  });
  // Microseconds of the processor, which a busy machine does not change.
  const { user, system } = process.cpuUsage(before);
  expect(user + system).toBeLessThan(1e6);
});

test.each([
  [100_000, 100_000],
  [2_147_483_647, 2_147_483_647],
  [2_000_000_000, 1],
  [1, 2_000_000_000],
  [10_001, 10_000],
])('%i x %i pixels are refused before anything is allocated', async (width, height) => {
  const pixels = Uint8Array.of(0);
  const before = process.memoryUsage().rss;
  const { code, message } = await refuse(pngFile({ width, height, pixels }), 'wall.png');
  expect(code).toBe('too-large');
  expect(message).toContain(`says that it is ${width} x ${height} pixels, `);
  expect(message).toContain('more than 100 million');
  expect(process.memoryUsage().rss - before).toBeLessThan(100e6);
});

test('a tighter limit is kept to', async () => {
  const path = join(folder, 'wall.png');
  writeFileSync(path, pngFile({ width: 1500, height: 1000 }));
  expect((await refusal(path, { mostPixels: 1e6 })).code).toBe('too-large');
  await expect(readPhoto(path, { mostPixels: 1.5e6 })).resolves.toMatchObject({ width: 1500 });
});

test('a limit that is none is refused', async () => {
  await expect(readPhoto('wall.png', { mostPixels: Number.NaN })).rejects.toThrow(
    'expected a whole number from 1 to 1000000000 for mostPixels, got NaN',
  );
});

test('thousands of empty scans are counted and refused', async () => {
  const jpeg = await corners().jpeg({ progressive: true }).toBuffer();
  // ITU-T T.81, B.2.3: a scan of one component, of which it sends nothing new.
  const scan = Buffer.from([0xff, 0xda, 0, 8, 1, 1, 0, 1, 63, 0x00, 0]);
  const bomb = Buffer.concat([jpeg.subarray(0, -2), ...Array<Buffer>(4000).fill(scan)]);
  const { code, message } = await refuse(Buffer.concat([bomb, jpeg.subarray(-2)]));
  expect(code).toBe('too-large');
  expect(message).toMatch(
    /is built of 40\d\d scans, too many for 10 s: --most-seconds 40[0-9] waits longer$/,
  );
});

test('a profile that unpacks to 200 MB is not unpacked', async () => {
  const { deflateSync } = await import('node:zlib');
  const packed = deflateSync(Buffer.alloc(200e6));
  const chunks = [pngChunk('iCCP', Buffer.concat([named('wide\0\0'), packed]))];
  const path = join(folder, 'wall.png');
  writeFileSync(path, pngFile({ width: 4, height: 4, chunks }));
  const before = process.memoryUsage().rss;
  const photo = await readPhoto(path).catch((cause: unknown) => cause);
  expect(photo instanceof TextureError || typeof photo === 'object').toBe(true);
  expect(process.memoryUsage().rss - before).toBeLessThan(150e6);
});

test.each([
  ['jpeg', () => corners().jpeg().toBuffer()],
  ['png', () => corners().png().toBuffer()],
  ['webp', () => corners().webp().toBuffer()],
  ['tiff', () => corners().tiff({ compression: 'none' }).toBuffer()],
  ['gif', () => corners().gif().toBuffer()],
  ['avif', () => corners().avif().toBuffer()],
] as const)('a %s that breaks off is never taken as whole', async (_, make) => {
  const whole = await make();
  for (const part of [0.3, 0.6, 0.9]) {
    const { code, message } = await refuse(whole.subarray(0, Math.floor(whole.length * part)));
    expect(['damaged-picture', 'not-a-picture']).toContain(code);
    expect(message).not.toMatch(/vips|load(_buffer)?:|unable|seek|libpng|heif/i);
  }
});

test('rubbish between head and pixels is one clear line', async () => {
  const png = pngFile({ width: 64, height: 64, pixels: new Uint8Array(10) });
  const { code, message } = await refuse(png, 'wall.png');
  expect(code).toBe('damaged-picture');
  expect(message).toContain(`${join(folder, 'wall.png')} is damaged: `);
});

test('reading leaves nothing beside the photo', async () => {
  const path = join(folder, 'wall.png');
  writeFileSync(path, pngFile({ width: 8, height: 8 }));
  await readPhoto(path);
  await refuse('text', 'note.txt');
  expect(readdirSync(folder)).toEqual(['note.txt', 'wall.png']);
});
