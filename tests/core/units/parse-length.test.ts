import { formatLength, parsePrintLength, parseRealLength } from '@gaugerod/core';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';

// 1 in = 25.4 mm and 1 ft = 304.8 mm exactly (International Yard and Pound Agreement, 1959).
test.each([
  ['120mm', 120],
  ['12cm', 120],
  ['9.9m', 9900],
  ['75', 75],
  ['4.7in', 119.38],
  ['3in', 76.2],
  ['8ft6in', 2590.8],
  [`8'6"`, 2590.8],
  [`8'6`, 2590.8],
  ['8 ft 6 in', 2590.8],
  ['8ft 6 1/2in', 2603.5],
  ['8′6″', 2590.8],
  ['8ft', 2438.4],
  ["9'", 2743.2],
  // BIA Technical Notes 10B: the modular brick is 7 5/8 in long.
  ['7 5/8in', 193.675],
  ['7-5/8"', 193.675],
  ['3/8 inch', 9.525],
  // 2 1/16 mm to the foot is British N.
  ['2 1/16mm', 2.0625],
  [' 120 MM ', 120],
  ['.5in', 12.7],
  ['007', 7],
  // What a program prints for 250 / 3, a course of three to 250 mm, with every place it has.
  [`${250 / 3}mm`, 250 / 3],
])('%s is %f mm', (text, mm) => {
  expect(parseRealLength(text)).toBe(mm);
  expect(parsePrintLength(text)).toBe(mm);
});

test.each([
  '',
  ' ',
  'mm',
  '-3mm',
  '+3mm',
  '1e3',
  '1e309',
  '0x10',
  'NaN',
  'Infinity',
  '12mmm',
  '12 m m',
  '12km',
  '1,200',
  '1_000',
  '12.',
  '1.2.3',
  '１２mm',
  '１２',
  '٣mm',
  '8ft14in',
  '8ft12in',
  '8ft6ft',
  '1/0in',
  '5/8/2in',
  '½in',
  'constructor',
  '120mm\n80mm',
  '9'.repeat(400),
])('%j is not a length', (text) => {
  expect(() => parseRealLength(text, '--length')).toThrow(RangeError);
  expect(() => parseRealLength(text, '--length')).toThrow(
    /^expected a length such as 120mm, 4\.7in or 8ft6in for --length, got "/,
  );
});

test.each([
  ['4,7in', '4.7in'],
  ['8,5m', '8.5m'],
  ['0,1234m', '0.1234m'],
])('%s is answered with %s', (text, meant) => {
  expect(() => parseRealLength(text, '--length')).toThrow(
    `expected a length whose decimals take a point, such as ${meant}, for --length, got "${text}"`,
  );
});

test.each(['0', '0mm', '0.0in', '0ft0in', '0/8in', '1000001m', '0.0000001mm'])(
  'nobody means a length of %s',
  (text) => {
    expect(() => parseRealLength(text)).toThrow(
      /^expected a length above 0, up to 1,000 km, for length, got "/,
    );
  },
);

describe('whatever the number', () => {
  const millimetres = fc.integer({ min: 1, max: 10 ** 9 });

  test('metres, centimetres and millimetres of the same length are the same', () => {
    fc.assert(
      fc.property(millimetres, (mm) => {
        const digits = String(mm).padStart(4, '0');
        expect(parseRealLength(`${digits.slice(0, -3)}.${digits.slice(-3)}m`)).toBe(mm);
        expect(parseRealLength(`${digits.slice(0, -1)}.${digits.slice(-1)}cm`)).toBe(mm);
        expect(parseRealLength(`${mm}mm`)).toBe(mm);
      }),
    );
  });

  test('feet and inches add up to inches', () => {
    fc.assert(
      fc.property(fc.nat(9999), fc.integer({ min: 1, max: 11 }), (feet, inches) => {
        const whole = feet * 12 + inches;
        expect(parseRealLength(`${feet}ft${inches}in`)).toBe(parseRealLength(`${whole}in`));
      }),
    );
  });

  test('a length worded for people reads back as the same length', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-3, max: 1e8, noNaN: true }), (mm) => {
        const back = parseRealLength(formatLength(mm, 9));
        expect(Math.abs(back / mm - 1)).toBeLessThan(1e-8);
      }),
    );
  });

  test('any text gives a length above 0 or a RangeError of one line', () => {
    const glyphs = fc.string({
      unit: fc.constantFrom(...Array.from(`0123456789./'" -xmcift½e`)),
      maxLength: 12,
    });
    fc.assert(
      fc.property(fc.oneof(glyphs, fc.string()), (text) => {
        try {
          const mm = parseRealLength(text);
          expect(mm > 0 && mm <= 1e9).toBe(true);
        } catch (error) {
          expect(error).toBeInstanceOf(RangeError);
          expect((error as RangeError).message).not.toMatch(/[\r\n]/);
        }
      }),
      { numRuns: 2000 },
    );
  });
});
