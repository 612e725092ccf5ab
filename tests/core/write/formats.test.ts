import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { inflateSync } from 'node:zlib';
import { dpi, type RowSource, writePicture } from '@gaugerod/core';
import fc from 'fast-check';
import sharp from 'sharp';
import { afterAll, beforeAll, expect, test } from 'vitest';

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'gaugerod-formats-'));
});
afterAll(() => {
  rmSync(folder, { recursive: true });
});

const byteAt = (x: number, y: number): number => (x * 7 + y * 31 + ((x * y) >> 3) * 13) & 0xff;

function drawn(width: number, height: number, period?: number): RowSource {
  return {
    width,
    height,
    dpi: dpi(600),
    ...(period !== undefined && { period }),
    *rows() {
      const row = new Uint8Array(width * 3);
      for (let y = 0; y < height; y++) {
        for (let i = 0; i < row.length; i++) row[i] = byteAt(i, period ? y % period : y);
        yield row;
      }
    },
  };
}

function pixelsOf(source: RowSource): Buffer {
  return Buffer.concat(Array.from(source.rows(), (row) => Uint8Array.from(row)));
}

async function written(name: string, source: RowSource): Promise<Buffer> {
  const path = join(folder, name);
  await writePicture(path, source);
  return readFileSync(path);
}

// What a program that is not ours reads from a file, or null where it is not installed.
const reader = 'exiftool';
function exifOf(name: string): Record<string, unknown> | null {
  const args = ['-j', '-n', '-a', '-G1', join(folder, name)];
  const { error, stdout } = spawnSync(reader, args, { encoding: 'utf8' });
  if (error) {
    console.log(`skipped: ${reader} is not installed`);
    return null;
  }
  return (JSON.parse(stdout) as Record<string, unknown>[])[0] ?? {};
}

// TIFF 6.0, section 2, read by its words: type 3 is 2 bytes, 4 and the parts of 5 are 4, 7 is 1.
function tagsOf(file: Buffer): Map<number, readonly number[]> {
  expect(file.toString('latin1', 0, 2)).toBe('II');
  expect(file.readUInt16LE(2)).toBe(42);
  const start = file.readUInt32LE(4);
  expect(start % 2).toBe(0);
  const tags = new Map<number, readonly number[]>();
  let before = 0;
  for (let i = 0; i < file.readUInt16LE(start); i++) {
    const entry = start + 2 + 12 * i;
    const id = file.readUInt16LE(entry);
    expect(id).toBeGreaterThan(before);
    before = id;
    const size = { 3: 2, 4: 4, 5: 4, 7: 1 }[file.readUInt16LE(entry + 2)] ?? 0;
    const count = file.readUInt32LE(entry + 4) * (file.readUInt16LE(entry + 2) === 5 ? 2 : 1);
    const at = size * count > 4 ? file.readUInt32LE(entry + 8) : entry + 8;
    tags.set(
      id,
      Array.from({ length: count }, (_, k) => file.readUIntLE(at + k * size, size)),
    );
  }
  return tags;
}

test('a TIFF says size, depth, compression and resolution by the numbers of its standard', async () => {
  const tags = tagsOf(await written('page.tif', drawn(1488, 1116)));
  // TIFF 6.0, section 8: the ids; section 14: predictor 2; supplement 2: compression 8.
  const baseline = [256, 257, 258, 259, 262, 274, 277, 282, 283, 284, 296, 317];
  expect(baseline.map((id) => tags.get(id))).toEqual([
    [1488],
    [1116],
    [8, 8, 8],
    [8],
    [2],
    [1],
    [3],
    [600_000, 1000],
    [600_000, 1000],
    [1],
    [2],
    [2],
  ]);
  // ICC.1: the signature of every profile stands at byte 36.
  expect(String.fromCharCode(...(tags.get(34_675) ?? []).slice(36, 40))).toBe('acsp');
});

test('a strip holds differences to the left', async () => {
  const source: RowSource = {
    width: 3,
    height: 1,
    dpi: null,
    rows: () => [Uint8Array.of(10, 20, 30, 12, 19, 30, 2, 255, 0)],
  };
  const file = await written('three.tif', source);
  const tags = tagsOf(file);
  const [at = 0] = tags.get(273) ?? [];
  const [length = 0] = tags.get(279) ?? [];
  // Worked by hand, modulo 256: TIFF 6.0, section 14.
  expect([...inflateSync(file.subarray(at, at + length))]).toEqual([
    10, 20, 30, 2, 255, 0, 246, 236, 226,
  ]);
  expect([282, 283, 296].map((id) => tags.get(id))).toEqual([undefined, undefined, undefined]);
});

test('a TIFF comes back whole from another decoder, whatever its period', async () => {
  const sizes = fc.record({
    width: fc.integer({ min: 1, max: 400 }),
    height: fc.integer({ min: 1, max: 3000 }),
    period: fc.integer({ min: 1, max: 3500 }),
  });
  await fc.assert(
    fc.asyncProperty(sizes, async ({ width, height, period }) => {
      const source = drawn(width, height, period);
      const decoded = await sharp(await written('repeats.tif', source), { failOn: 'warning' })
        .raw()
        .toBuffer();
      expect(decoded.equals(pixelsOf(source))).toBe(true);
    }),
    {
      numRuns: 10,
      examples: [
        // A period in several strips, one with no fitting part, a single pixel, a last strip cut short.
        [{ width: 4000, height: 1100, period: 248 }],
        [{ width: 4000, height: 700, period: 331 }],
        [{ width: 1, height: 1, period: 1 }],
        [{ width: 4000, height: 349, period: 87 }],
      ],
    },
  );
});

test('a TIFF that repeats is made and compressed once', async () => {
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
  await written('once.tif', counted);
  expect(made).toBeLessThan(310);
});

test.each(['page.tif', 'page.tiff', 'page.jpg', 'page.JPEG', 'page.webp'])(
  '%s carries its print resolution and sRGB, and nothing of a camera',
  async (name) => {
    await written(name, { ...drawn(90, 60), dpi: dpi(360) });
    const exif = exifOf(name);
    if (exif === null) return;
    expect(exif).toMatchObject({ 'IFD0:XResolution': 360, 'IFD0:YResolution': 360 });
    expect(exif).toMatchObject({ 'IFD0:ResolutionUnit': 2, 'ICC-header:ColorSpaceData': 'RGB ' });
    expect(exif['ICC_Profile:ProfileDescription']).toMatch(/^(sRGB|s2CI)/);
    expect(Object.keys(exif).filter((key) => /GPS|Serial|Thumbnail|Model$/.test(key))).toEqual(
      'ICC-header:DeviceModel' in exif ? ['ICC-header:DeviceModel'] : [],
    );
  },
);

test('a JPEG begins with its density in dots per inch, as JFIF asks', async () => {
  const file = await written('page.jpg', drawn(90, 60));
  // ITU-T T.871, 10.1: SOI, APP0 of 16 bytes, "JFIF" 0, version 1.02, unit 1, 600 x 600, no thumbnail.
  expect(file.toString('hex', 0, 20)).toBe(
    'ffd8' + 'ffe0' + '0010' + '4a46494600' + '0102' + '01' + '0258' + '0258' + '0000',
  );
  const bare = await written('bare.jpg', { ...drawn(90, 60), dpi: null });
  expect(bare.toString('hex', 11, 18)).toBe('0102' + '00' + '0001' + '0001');
});

test('a JPEG keeps the full resolution of colours, and stays near what it was', async () => {
  // Red brick beside grey mortar, line by line: with halved colours the two run together.
  const source: RowSource = {
    width: 64,
    height: 64,
    dpi: dpi(600),
    rows: () =>
      Array.from({ length: 64 }, (_, y) =>
        Uint8Array.from(
          { length: 192 },
          (_, i) => (y % 4 < 2 ? [150, 60, 45] : [150, 148, 140])[i % 3]!,
        ),
      ),
  };
  const file = await written('stripes.jpg', source);
  expect((await sharp(file).metadata()).chromaSubsampling).toBe('4:4:4');
  const decoded = await sharp(file).raw().toBuffer();
  const meant = pixelsOf(source);
  const worst = decoded.reduce((most, value, i) => Math.max(most, Math.abs(value - meant[i]!)), 0);
  expect(worst).toBeLessThanOrEqual(12);
});

test('a JPEG is as true as it is told to be, and nothing else is told', async () => {
  const source = drawn(200, 150);
  const sizes = await Promise.all(
    [40, 92, 100].map(async (quality) => {
      const path = join(folder, `true-${quality}.jpg`);
      await writePicture(path, source, { quality });
      return readFileSync(path).length;
    }),
  );
  expect(sizes).toEqual(sizes.toSorted((a, b) => a - b));
  for (const [name, quality] of [
    ['page.jpg', 0],
    ['page.jpg', 101],
    ['page.jpg', 1.5],
    ['page.png', 90],
    ['page.webp', 90],
  ] as const) {
    const writing = writePicture(join(folder, name), source, { quality });
    await expect(writing).rejects.toThrow(/^expected .* for quality, got /);
  }
});

test('a WebP loses nothing', async () => {
  const source = drawn(301, 203);
  const decoded = await sharp(await written('page.webp', source))
    .raw()
    .toBuffer();
  expect(decoded.equals(pixelsOf(source))).toBe(true);
});

test.each([
  ['wide.webp', 16_384, 1, "over WebP's limit of 16383 a side"],
  ['tall.jpg', 1, 65_536, "over JPEG's limit of 65535 a side"],
  ['many.jpg', 20_000, 5001, 'over the 100 million that are written as JPEG'],
  ['many.webp', 16_000, 6251, 'over the 100 million that are written as WebP'],
])('%s of %i x %i pixels is refused before a row is made', async (name, width, height, why) => {
  const source: RowSource = {
    width,
    height,
    dpi: null,
    rows: () => {
      throw new Error('a row was asked for');
    },
  };
  await expect(writePicture(join(folder, name), source)).rejects.toMatchObject({
    code: 'too-large',
    message: `${join(folder, name)} would be ${width} x ${height} pixels, ${why}`,
    hint: 'write it as .png or .tif',
  });
});
