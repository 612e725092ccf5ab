// What the world outside says of print and files, and what this library makes of it.
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import {
  createRaster,
  dpi,
  findCourse,
  findScale,
  printMm,
  realMm,
  roundPeriod,
  toDots,
  toPrint,
  toRows,
  writePicture,
} from '@gaugerod/core';
import { describe, expect, test } from 'vitest';

// The bytes of one chunk of a PNG: length, kind, data, checksum (PNG specification, 5.3).
function chunkOf(png: Buffer, kind: string): string | null {
  for (let at = 8; at < png.length; at += png.readUInt32BE(at) + 12) {
    if (png.toString('latin1', at + 4, at + 8) !== kind) continue;
    return png.toString('hex', at, at + png.readUInt32BE(at) + 12);
  }
  return null;
}

async function writtenAt(resolution: number): Promise<Buffer> {
  const folder = await mkdtemp(join(tmpdir(), 'gaugerod-'));
  try {
    const path = join(folder, 'one-pixel.png');
    await writePicture(path, toRows(createRaster(1, 1), dpi(resolution)));
    return await readFile(path);
  } finally {
    await rm(folder, { recursive: true });
  }
}

describe('a written PNG says how large it prints', () => {
  // PNG specification: pixels to the metre as a whole number, 1 in = 0.0254 m exactly, so
  // round(dpi / 0.0254). 72, 96 and 150 tell rounding from truncation.
  test.each([
    [72, 2835, 72.009],
    [96, 3780, 96.012],
    [150, 5906, 150.0124],
    [300, 11811, 299.9994],
    [360, 14173, 359.9942],
    [600, 23622, 599.9988],
    [720, 28346, 719.9884],
    [1200, 47244, 1199.9976],
  ])('%i dpi is stored as %i pixels a metre, and reads as %f dpi', async (asked, stored, read) => {
    const chunk = chunkOf(await writtenAt(asked), 'pHYs') ?? '';
    const density = Buffer.from(chunk, 'hex').readUInt32BE(8);
    expect(density).toBe(stored);
    expect(Buffer.from(chunk, 'hex').readUInt32BE(12)).toBe(stored);
    expect(Math.abs(density * 0.0254 - read)).toBeLessThan(5.1e-5);
  });

  test.each([
    // Whole chunks, worked by hand: length, kind, twice the density, unit 1, CRC-32 of ISO 3309.
    [600, '000000097048597300005c4600005c460114944341'],
    [300, '000000097048597300002e2300002e230178a53f76'],
    [72, '000000097048597300000b1300000b1301009a9c18'],
    [96, '000000097048597300000ec400000ec401952b0e1b'],
    [1200, '00000009704859730000b88c0000b88c01ccf6bb2f'],
  ])('byte for byte at %i dpi', async (asked, chunk) => {
    expect(chunkOf(await writtenAt(asked), 'pHYs')).toBe(chunk);
  });

  test('1488 dots at 600 dpi print within a thousandth of a per cent of 62.992 mm', async () => {
    const chunk = Buffer.from(chunkOf(await writtenAt(600), 'pHYs') ?? '', 'hex');
    const mm = (1488 / chunk.readUInt32BE(8)) * 1000;
    expect(mm).toBeCloseTo(62.99213, 5);
    expect(Math.abs(mm / 62.992 - 1)).toBeLessThan(1e-5);
  });
});

describe('sheets in dots', () => {
  // ISO 216 sizes in mm; letter 8.5 x 11 in; 1 in = 25.4 mm exactly. Worked by hand to two places.
  test.each([
    ['A5', 148, 210, 300, 1748.03, 2480.31],
    ['A5', 148, 210, 600, 3496.06, 4960.63],
    ['A4', 210, 297, 300, 2480.31, 3507.87],
    ['A4', 210, 297, 600, 4960.63, 7015.75],
    ['A3', 297, 420, 300, 3507.87, 4960.63],
    ['A3', 297, 420, 600, 7015.75, 9921.26],
    ['letter', 215.9, 279.4, 300, 2550, 3300],
    ['letter', 215.9, 279.4, 600, 5100, 6600],
  ])('%s, %f x %f mm, at %i dpi is %f x %f', (_, width, height, resolution, across, down) => {
    expect(Math.abs(toDots(printMm(width), dpi(resolution)) - across)).toBeLessThan(0.0051);
    expect(Math.abs(toDots(printMm(height), dpi(resolution)) - down)).toBeLessThan(0.0051);
  });

  test.each([
    [300, 11.8110236],
    [600, 23.6220472],
    [1200, 47.2440945],
  ])('a millimetre at %i dpi is %f dots', (resolution, dots) => {
    expect(Math.abs(toDots(printMm(1), dpi(resolution)) - dots)).toBeLessThan(1e-7);
  });

  test('a card edge of three laminations, and a line as fine as prints dependably', () => {
    // 1.5 mm and 0.2 mm (common practice, no source) at 600 dpi.
    expect(toDots(printMm(1.5), dpi(600))).toBeCloseTo(35.43, 2);
    expect(toDots(printMm(0.2), dpi(600))).toBeCloseTo(4.72, 2);
  });
});

// The length of one repeat in mm, the scale, its exact dots at 600 dpi, how far one repeat rounded is
// off in per cent, then the fewest repeats within 0.1 %, their whole dots and what they are off.
// Worked by hand from trade sizes: 4 UK courses = 300 mm, DIN 4172, BIA Technical Notes 10B and so on.
const tiles = [
  ['4 UK courses', 300, 'OO', 93.0002, -0.0002, 1, 93, -0.0002],
  ['2 UK courses', 150, 'OO', 46.5001, 1.075, 2, 93, -0.0002],
  ['a UK stretcher', 225, 'OO', 69.7501, 0.358, 4, 279, -0.0002],
  ['UK Flemish bond', 337.5, 'OO', 104.6252, 0.358, 3, 314, 0.0396],
  ['2 UK courses', 150, 'N-UK', 23.9413, 0.245, 13, 311, -0.076],
  ['a UK stretcher', 225, 'N-UK', 35.9119, 0.245, 9, 323, -0.0641],
  ['an NF stretcher', 250, 'H0', 67.8794, 0.178, 6, 407, -0.0679],
  ['2 NF courses', 500 / 3, 'H0', 45.253, -0.559, 4, 181, -0.0065],
  ['2 DF courses', 125, 'N-EU', 18.4547, -2.464, 9, 166, -0.0557],
  ['3 US courses', 203.2, 'HO', 55.1181, -0.214, 6, 331, 0.0881],
  ['an Australian stretcher', 240, 'TT-EU', 47.2441, -0.517, 4, 189, 0.0125],
  ['2 Waalformat courses', 120, 'N-JP', 18.8976, 0.542, 9, 170, -0.0463],
  ['a concrete masonry unit', 406.4, 'O-US', 200, 0, 1, 200, 0],
  ['a UK block', 450, 'OO', 139.5003, 0.358, 2, 279, -0.0002],
  ['a corrugation', 76.2, 'OO', 23.622, 1.6, 5, 118, -0.0933],
] as const;

describe.each(tiles)('%s, %f mm, at %s', (_, mm, scale, exact, rounded, repeats, period, off) => {
  const dots = toDots(toPrint(realMm(mm), findScale(scale).ratio), dpi(600));

  test(`is ${exact} dots, and ${rounded} % off when rounded alone`, () => {
    expect(Math.abs(dots - exact)).toBeLessThan(6e-5);
    expect(Math.abs((Math.round(dots) / dots - 1) * 100 - rounded)).toBeLessThan(6e-4);
  });

  test(`tiles in ${period} dots of ${repeats} repeats`, () => {
    const whole = roundPeriod(dots);
    expect(whole).toMatchObject({ repeats, period });
    expect(Math.abs(whole.scaleError * 100 - off)).toBeLessThan(6e-5);
  });
});

test('the worked chain: 62.5 px to a UK course, OO at 600 dpi', () => {
  // 4 courses = 300 mm, so 75 mm to 62.5 px is 1.2 mm a pixel, and 1.2 / 76.2 * 600 / 25.4 = 0.372001
  // of a dot; 4000 x 3000 px then print as 1488 x 1116 dots.
  const mmPerPx = findCourse('uk-metric').size / 62.5;
  expect(mmPerPx).toBe(1.2);
  const { ratio } = findScale('OO');
  const scaled = (px: number): number => toDots(toPrint(realMm(px * mmPerPx), ratio), dpi(600));
  expect(Math.abs(scaled(1) - 0.37200074)).toBeLessThan(1e-8);
  expect([Math.round(scaled(4000)), Math.round(scaled(3000))]).toEqual([1488, 1116]);
});

test('text grows a picture that is put into a drawing by a third', () => {
  // RFC 4648: every three bytes become four letters, the last ones padded: 4 * ceil(n / 3).
  const growth = [
    [0, 0],
    [1, 4],
    [2, 4],
    [3, 4],
    [100, 136],
    [371_000, 494_668],
    [1_000_000, 1_333_336],
    [1_048_576, 1_398_104],
  ] as const;
  for (const [bytes, letters] of growth) {
    expect(Buffer.alloc(bytes).toString('base64')).toHaveLength(letters);
  }
  const url = `data:image/png;base64,${Buffer.alloc(371_000).toString('base64')}`;
  expect(url).toHaveLength(494_690);
});
