import { dpi, type Fill, fillRows, type PartToFill, printMm } from '@gaugerod/core';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { noisePicture } from '../../support/noise-picture.js';

const tile = noisePicture(37, 23, 11);

function page(fill: Fill): Uint8Array[] {
  return Array.from(fill.rows.rows(), (row) => row.slice());
}

function part(width: number, height: number, more: Partial<PartToFill> = {}): Fill {
  return fillRows(tile, { width: printMm(width), height: printMm(height), dpi: dpi(600), ...more });
}

test.each([
  // ISO 216 in dots at 600 dpi, rounded: 210 x 600 / 25.4 = 4960.63.
  [148, 210, 3496, 4961],
  [210, 297, 4961, 7016],
  [297, 420, 7016, 9921],
])('a sheet of %d x %d mm is %d x %d dots', (width, height, columns, rows) => {
  const { rows: source } = part(width, height);
  expect([source.width, source.height]).toEqual([columns, rows]);
});

test('rows are the tile, again and again', () => {
  const rows = page(part(5, 4));
  const first = page(part(37 / 23.622047, 23 / 23.622047));
  expect(first).toHaveLength(23);
  rows.forEach((row, y) => {
    const expected = first[y % 23]!;
    for (let i = 0; i < row.length; i++) expect(row[i]).toBe(expected[i % 111]);
  });
});

test('bleed is added outside, and moves nothing', () => {
  const plain = page(part(4, 3));
  const fill = part(4, 3, { bleed: printMm(0.5) });
  // 0.5 mm is 11.8 dots.
  expect(fill.bleedPx).toBe(12);
  const bled = page(fill);
  expect(bled).toHaveLength(plain.length + 24);
  plain.forEach((row, y) => {
    expect(bled[y + 12]!.subarray(36, 36 + row.length)).toEqual(row);
  });
});

test('two parts of one wall meet to the pixel', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 120 }),
      fc.integer({ min: -300, max: 300 }),
      fc.integer({ min: -300, max: 300 }),
      (width, x, y) => {
        const dots = (count: number): number => (count * 25.4) / 600;
        const left = page(part(dots(width), dots(9), { datum: { x: dots(x), y: dots(y) } }));
        const right = page(part(dots(8), dots(9), { datum: { x: dots(x + width), y: dots(y) } }));
        const both = page(part(dots(width + 8), dots(9), { datum: { x: dots(x), y: dots(y) } }));
        both.forEach((row, line) => {
          expect([...left[line]!, ...right[line]!]).toEqual([...row]);
        });
      },
    ),
    { numRuns: 40 },
  );
});

test('the pixel named as origin lies on the datum', () => {
  const plain = page(part(3, 3));
  const moved = page(part(3, 3, { origin: { x: 5, y: 7 } }));
  expect(moved[0]!.subarray(0, 30)).toEqual(plain[7]!.subarray(15, 45));
});

test('a page says after how many rows it repeats, unless it is shorter than the tile', () => {
  expect(part(5, 5).rows.period).toBe(23);
  expect(part(5, 0.5).rows.period).toBeUndefined();
});

test('rows are made as they are asked for, in one buffer', () => {
  const seen = new Set<Uint8Array>();
  let asked = 0;
  for (const row of part(1000, 100_000).rows.rows()) {
    seen.add(row);
    if (++asked === 3) break;
  }
  expect(seen.size).toBe(1);
});

test('the size on paper is that of the whole dots', () => {
  // 4961 dots of 25.4 / 600 mm.
  expect(part(210, 297).sizeMm.width).toBeCloseTo(210.0157, 4);
  expect(part(210, 297).sizeMm.height).toBeCloseTo(297.0107, 4);
});

test('sizes no picture can have are refused before anything is made', () => {
  expect(() => part(1e9, 10)).toThrow(/dots at 600 dpi for width/);
  expect(() => part(0.001, 10)).toThrow(RangeError);
  expect(() => part(10, 10, { datum: { x: NaN, y: 0 } })).toThrow(RangeError);
});
