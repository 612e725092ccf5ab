import { parsePrintSize, parseRealSize } from '@gaugerod/core';
import fc from 'fast-check';
import { expect, test } from 'vitest';

test.each([
  ['120x80mm', 120, 80],
  ['120mmx80mm', 120, 80],
  ['120mm x 80', 120, 80],
  ['120x80', 120, 80],
  ['12cm×80mm', 120, 80],
  ['12cm X 8cm', 120, 80],
  // 1 in = 25.4 mm and 1 ft = 304.8 mm exactly (International Yard and Pound Agreement, 1959).
  ['4x3in', 101.6, 76.2],
  ['9.9x4.2m', 9900, 4200],
  ['8ft6in x 4ft', 2590.8, 1219.2],
  [`8'6" x 4'`, 2590.8, 1219.2],
])('%s is %f by %f mm', (text, width, height) => {
  expect(parsePrintSize(text)).toEqual({ width, height });
  expect(parseRealSize(text)).toEqual({ width, height });
});

test.each(['', '120', 'x', '120x', 'x80', '1x2x3', '120*80', '120 80', 'axb', '120x-80', '0x10x5'])(
  '%j is not a size',
  (text) => {
    expect(() => parsePrintSize(text, '--size')).toThrow(
      /^expected a size such as 120x80mm for --size, got "/,
    );
  },
);

test('nobody means a size without width or height', () => {
  expect(() => parsePrintSize('0x80mm')).toThrow(RangeError);
  expect(() => parsePrintSize('80x0mm')).toThrow(RangeError);
  expect(() => parsePrintSize('2000000x1m')).toThrow(RangeError);
});

test('a unit on either side goes for both, whatever the numbers', () => {
  const side = fc.integer({ min: 1, max: 9999 });
  fc.assert(
    fc.property(side, side, fc.constantFrom('mm', 'cm', 'm', 'in', 'ft'), (w, h, unit) => {
      const both = parsePrintSize(`${w}${unit}x${h}${unit}`);
      expect(parsePrintSize(`${w}x${h}${unit}`)).toEqual(both);
      expect(parsePrintSize(`${w}${unit} x ${h}`)).toEqual(both);
    }),
  );
});
