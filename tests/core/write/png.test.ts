import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { constants, crc32 as nodeCrc32, deflateRawSync, inflateSync } from 'node:zlib';
import {
  createRaster,
  dpi,
  fillRows,
  type RowSource,
  printMm,
  px,
  toRows,
  writePicture,
} from '@gaugerod/core';
import fc from 'fast-check';
import sharp from 'sharp';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { crc32, toChunk } from '../../../packages/core/src/write/png/chunk.js';
import { layCopies } from '../../../packages/core/src/fill/lay-copies.js';
import { combineAdler32 } from '../../../packages/core/src/write/png/combine-adler32.js';
import { noisePicture } from '../../support/noise-picture.js';

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'gaugerod-png-'));
});
afterAll(() => {
  rmSync(folder, { recursive: true });
});

const ascii = (text: string): Uint8Array => new TextEncoder().encode(text);
const hex = (bytes: Uint8Array): string => Buffer.from(bytes).toString('hex');

// Rows whose bytes depend on everything that could go wrong: column, row, channel.
const byteAt = (x: number, y: number): number => (x * 7 + y * 31 + ((x * y) >> 3) * 13) & 0xff;

function drawn(width: number, height: number, period?: number, across?: number): RowSource {
  return {
    width,
    height,
    dpi: dpi(600),
    ...(period !== undefined && { period }),
    ...(across !== undefined && { across }),
    *rows() {
      const row = new Uint8Array(width * 3);
      for (let y = 0; y < height; y++) {
        for (let i = 0; i < row.length; i++) {
          row[i] = byteAt(across ? i % (3 * across) : i, period ? y % period : y);
        }
        yield row;
      }
    },
  };
}

function pixelsOf(source: RowSource): Buffer {
  return Buffer.concat(Array.from(source.rows(), (row) => Uint8Array.from(row)));
}

interface Chunk {
  readonly kind: string;
  readonly data: Buffer;
}

// PNG Specification, 5.3: length, kind, data, CRC. Checked with Node's own CRC where it has one.
function chunksOf(file: Buffer): readonly Chunk[] {
  const chunks: Chunk[] = [];
  for (let at = 8; at < file.length;) {
    const length = file.readUInt32BE(at);
    const end = at + 8 + length;
    if (typeof nodeCrc32 === 'function') {
      expect(file.readUInt32BE(end)).toBe(nodeCrc32(file.subarray(at + 4, end)));
    }
    chunks.push({
      kind: file.toString('latin1', at + 4, at + 8),
      data: file.subarray(at + 8, end),
    });
    at = end + 4;
  }
  return chunks;
}

async function written(source: RowSource): Promise<Buffer> {
  const path = join(folder, 'page.png');
  await writePicture(path, source);
  return readFileSync(path);
}

// Another decoder than any of ours; strict about checksums.
async function decoded(file: Buffer): Promise<Buffer> {
  return sharp(file, { failOn: 'warning' }).raw().toBuffer();
}

test.each([
  // ISO/IEC 3309, the usual check values.
  ['', 0x00000000],
  ['a', 0xe8b7be43],
  ['abc', 0x352441c2],
  ['123456789', 0xcbf43926],
  ['Wikipedia', 0xadaac02e],
])('the checksum of "%s" is the published one', (text, crc) => {
  expect(crc32(ascii(text))).toBe(crc);
});

test('the checksum of two runs follows from those of each', () => {
  // zlib's adler32_combine.
  expect(combineAdler32(0x0623020c, 0x09170296, 6)).toBe(0x1b7c04a1); // brick + mortar
  expect(combineAdler32(0x09f872bc, 0x2a286e81, 70_000)).toBe(0xff7ee13c);
});

test('parts compressed apart and joined are one stream', () => {
  // RFC 1951, 3.2.4: a full flush ends on a byte's border and forgets what went before.
  const first = deflateRawSync('brick', { finishFlush: constants.Z_FULL_FLUSH });
  const head = Uint8Array.of(0x78, 0xda);
  const last = Uint8Array.of(0x03, 0x00, 0x1b, 0x7c, 0x04, 0xa1);
  const second = deflateRawSync('mortar', { finishFlush: constants.Z_FULL_FLUSH });
  expect(inflateSync(Buffer.concat([head, first, second, last])).toString()).toBe('brickmortar');
});

test.each([
  // PNG Specification, third edition, 11; bytes and CRCs worked out apart from this library.
  [72, '00000009' + '70485973' + '00000b13' + '00000b13' + '01' + '009a9c18'], // 2834.6 -> 2835
  [96, '00000009' + '70485973' + '00000ec4' + '00000ec4' + '01' + '952b0e1b'],
  [300, '00000009' + '70485973' + '00002e23' + '00002e23' + '01' + '78a53f76'],
  [600, '00000009' + '70485973' + '00005c46' + '00005c46' + '01' + '14944341'], // 23622
  [1200, '00000009' + '70485973' + '0000b88c' + '0000b88c' + '01' + 'ccf6bb2f'],
])('%i dpi is stored as whole pixels to the metre', async (resolution, bytes) => {
  const file = await written({ ...drawn(2, 2), dpi: dpi(resolution) });
  const { data } = chunksOf(file).find(({ kind }) => kind === 'pHYs') ?? { data: Buffer.of() };
  expect(hex(toChunk('pHYs', data))).toBe(bytes);
  expect(hex(file)).toContain(bytes);
});

test('the head says size, depth and colour, before any pixel', async () => {
  const file = await written(drawn(1488, 1116));
  expect(hex(file).slice(0, 66)).toBe(
    '89504e470d0a1a0a' +
      '0000000d' +
      '49484452' +
      '000005d0' +
      '0000045c' +
      '0802000000' +
      '15ac24d1',
  );
  expect(hex(file)).toContain('00000001' + '73524742' + '00' + 'aece1ce9'); // sRGB, perceptual
  expect(hex(file)).toContain('00000004' + '67414d41' + '0000b18f' + '0bfc6105'); // gAMA 45455
  const kinds = chunksOf(file).map(({ kind }) => kind);
  expect(kinds.slice(0, 5)).toEqual(['IHDR', 'sRGB', 'gAMA', 'pHYs', 'IDAT']);
  expect(new Set(kinds.slice(4, -1))).toEqual(new Set(['IDAT']));
  expect(hex(file).slice(-24)).toBe('00000000' + '49454e44' + 'ae426082');
});

test('a picture without print resolution carries none', async () => {
  const file = await written({ ...drawn(3, 3), dpi: null });
  expect(chunksOf(file).some(({ kind }) => kind === 'pHYs')).toBe(false);
});

test('a picture comes back from another decoder as it was', async () => {
  const source = drawn(1100, 700);
  const file = await written(source);
  expect((await decoded(file)).equals(pixelsOf(source))).toBe(true);
  const { width, height, density } = await sharp(file).metadata();
  expect({ width, height, density }).toEqual({ width: 1100, height: 700, density: 600 });
});

test('a picture that repeats comes back whole, whatever its period', async () => {
  const sizes = fc.record({
    width: fc.integer({ min: 1, max: 400 }),
    height: fc.integer({ min: 1, max: 3000 }),
    period: fc.integer({ min: 1, max: 3500 }),
    across: fc.integer({ min: 1, max: 500 }),
  });
  await fc.assert(
    fc.asyncProperty(sizes, async ({ width, height, period, across }) => {
      const source = drawn(width, height, period, across);
      expect((await decoded(await written(source))).equals(pixelsOf(source))).toBe(true);
    }),
    {
      numRuns: 15,
      examples: [
        [{ width: 4000, height: 1100, period: 31, across: 1700 }],
        [{ width: 4000, height: 349, period: 100, across: 1 }],
        [{ width: 1, height: 1, period: 1, across: 1 }],
      ],
    },
  );
});

test('a picture laid of copies that come to no whole dots comes back whole', async () => {
  const side = fc.record({
    period: fc.integer({ min: 1, max: 400 }),
    copies: fc.integer({ min: 2, max: 9 }),
    dots: fc.integer({ min: 1, max: 1500 }),
    datum: fc.integer({ min: -500, max: 500 }),
  });
  await fc.assert(
    fc.asyncProperty(side, side, async (x, y) => {
      const wide = Math.ceil(x.period / Math.min(x.copies, x.period));
      const tall = Math.ceil(y.period / Math.min(y.copies, y.period));
      const tile = layCopies(noisePicture(wide, tall, 3), {
        x: { copies: Math.min(x.copies, x.period), period: px(x.period) },
        y: { copies: Math.min(y.copies, y.period), period: px(y.period) },
      });
      // 254 dots to the inch are 10 to the millimetre.
      const part = {
        width: printMm(x.dots / 10),
        height: printMm(y.dots / 10),
        dpi: dpi(254),
        datum: { x: x.datum / 10, y: y.datum / 10 },
      };
      const { rows } = fillRows(tile, part);
      const { width, height, planes } = tile;
      const plain = fillRows({ width, height, planes }, part);
      const shown = await decoded(await written(rows));
      expect(shown.equals(pixelsOf(rows))).toBe(true);
      expect(shown.equals(pixelsOf(plain.rows))).toBe(true);
    }),
    { numRuns: 40 },
  );
});

test('a picture that repeats is made once, and is smaller for it', async () => {
  let made = 0;
  const source = drawn(3000, 3000, 150);
  const counted: RowSource = {
    ...source,
    *rows() {
      for (const row of source.rows()) {
        made++;
        yield row;
      }
    },
  };
  const file = await written(counted);
  expect(made).toBeLessThan(700);
  expect((await decoded(file)).equals(pixelsOf(source))).toBe(true);
});

test('linear light is written as the nearest sRGB', async () => {
  const raster = createRaster(2, 1);
  // IEC 61966-2-1: 0.2158605 is 128, 0.5 is 187.5 and so 188; beyond the range is clipped.
  raster.planes[0].set([0.2158605, -0.5]);
  raster.planes[1].set([0.5, 1.5]);
  raster.planes[2].set([0, 1]);
  expect([...(await decoded(await written(toRows(raster, dpi(300)))))]).toEqual([
    128, 188, 0, 0, 255, 255,
  ]);
});

const checkers: readonly (readonly [tool: string, args: readonly string[]])[] = [
  ['pngcheck', ['-q']],
  ['pngfix', []],
];

test.each(checkers)('%s finds nothing wrong', async (tool, args) => {
  if (spawnSync(tool, ['--version']).error) {
    console.log(`skipped: ${tool} is not installed`);
    return;
  }
  const paths = [drawn(5, 3), drawn(1500, 900), drawn(900, 1900, 77)].map(async (source, i) => {
    const path = join(folder, `checked-${i}.png`);
    await writePicture(path, source);
    return path;
  });
  for (const path of await Promise.all(paths)) {
    const { status, stdout } = spawnSync(tool, [...args, path], { encoding: 'utf8' });
    expect({ status, stdout }).toMatchObject({ status: 0 });
    expect(stdout).not.toMatch(/error|bad|invalid|too far/i);
  }
});

test('rows that stop early are an error, and leave nothing behind', async () => {
  const path = join(folder, 'short.png');
  writeFileSync(path, 'old');
  const short: RowSource = { ...drawn(4, 9), rows: () => drawn(4, 2).rows() };
  await expect(writePicture(path, short)).rejects.toThrow('a picture said to have 9 rows gave 2');
  expect(readFileSync(path, 'utf8')).toBe('old');
});

test.each([
  [0, 1, undefined],
  [1, 0, undefined],
  [1.5, 1, undefined],
  [Number.NaN, 1, undefined],
  [1, 1, 0],
])('%f x %f with a period of %s is refused', async (width, height, period) => {
  const source = { ...drawn(1, 1), width, height, ...(period !== undefined && { period }) };
  await expect(writePicture(join(folder, 'none.png'), source)).rejects.toThrow(RangeError);
});

// A page as wide as A0 at 600 dpi; built code in a process of its own, as users run it. Its most on Linux is read
// where it begins with the program (proc_pid_status(5)): that of getrusage(2) begins with the process that started it.
const widePage = (path: string): string => `
  const { existsSync, readFileSync } = await import('node:fs');
  const { dpi, writePicture } = await import(${JSON.stringify(
    new URL('../../../packages/core/dist/index.js', import.meta.url).href,
  )});
  const [width, height] = [19866, 3000];
  await writePicture(${JSON.stringify(path)}, {
    width, height, dpi: dpi(600),
    *rows() {
      const row = new Uint8Array(width * 3);
      for (let y = 0; y < height; y++) {
        for (let i = 0; i < row.length; i++) row[i] = (i * 7 + y * 31 + ((i * y) >> 5)) & 0xff;
        yield row;
      }
    },
  });
  const status = '/proc/self/status';
  const kibibytes = existsSync(status)
    ? /^VmHWM:\\s+(\\d+) kB$/m.exec(readFileSync(status, 'utf8'))[1]
    : process.resourceUsage().maxRSS;
  console.log(kibibytes / 1024);`;

test('a page of 179 MB is never held in memory', () => {
  const script = widePage(join(folder, 'wide.png'));
  const { stdout } = spawnSync(process.execPath, ['--input-type=module', '-e', script], {
    encoding: 'utf8',
  });
  const mebibytes = Number(stdout);
  expect(mebibytes).toBeGreaterThan(20);
  expect(mebibytes).toBeLessThan(150);
});
