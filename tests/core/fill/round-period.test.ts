import { px, roundPeriod } from '@gaugerod/core';
import fc from 'fast-check';
import { expect, test } from 'vitest';

test('a 75 mm course in OO at 600 dpi repeats truly every four courses', () => {
  // OO is 4 mm to the foot; 1 ft = 304.8 mm and 1 in = 25.4 mm exactly (International Yard and
  // Pound Agreement, 1959): 75 / 76.2 * 600 / 25.4 = 23.250 dots a course, so 93 for four.
  expect(roundPeriod(px(23.25))).toEqual({ repeats: 4, period: 93, scaleError: 0 });
});

test.each([
  // What repeats, its mm, the scale; at 600 dpi: fewest repeats within 0.1 %, dots, error in %.
  // By hand from mm / ratio * 600 / 25.4.
  ['UK four courses', 300, 76.2, 1, 93, -0.0002],
  ['UK two courses', 150, 76.2, 2, 93, -0.0002],
  ['UK stretcher', 225, 76.2, 4, 279, -0.0002],
  ['UK Flemish', 337.5, 76.2, 3, 314, 0.0396],
  ['UK two courses in N', 150, 148, 13, 311, -0.076],
  ['UK stretcher in N', 225, 148, 9, 323, -0.0641],
  ['NF length', 250, 87, 6, 407, -0.0679],
  ['NF two courses', 500 / 3, 87, 4, 181, -0.0065],
  ['DF two courses', 125, 160, 9, 166, -0.0557],
  ['US three courses', 203.2, 87.0857, 6, 331, 0.0881],
  ['AU length', 240, 120, 4, 189, 0.0125],
  ['WF two courses', 120, 150, 9, 170, -0.0463],
  ['concrete block length', 406.4, 48, 1, 200, 0],
  ['UK block', 450, 76.2, 2, 279, -0.0002],
  ['corrugation', 76.2, 76.2, 5, 118, -0.0933],
])('%s of %d mm at 1:%d', (_, mm, ratio, repeats, period, percent) => {
  const got = roundPeriod(px(((mm / ratio) * 600) / 25.4));
  expect(got.repeats).toBe(repeats);
  expect(got.period).toBe(period);
  expect(100 * got.scaleError).toBeCloseTo(percent, 3);
});

test('a tile stays within tolerance, and is whole', () => {
  fc.assert(
    fc.property(fc.double({ min: 1, max: 4000, noNaN: true }), (repeat) => {
      const { period, scaleError } = roundPeriod(px(repeat));
      expect(Number.isInteger(period)).toBe(true);
      expect(Math.abs(scaleError)).toBeLessThanOrEqual(0.001);
    }),
  );
});

test('a repeat under a pixel is refused, and so is no tolerance', () => {
  expect(() => roundPeriod(px(0.9))).toThrow(/expected a bond repeat of 1 px or more for repeat/);
  for (const tolerance of [0, -0.001, NaN])
    expect(() => roundPeriod(px(9), { tolerance })).toThrow(
      'expected a fraction above 0 for tolerance',
    );
});

test('the border itself is within tolerance, and one pixel is a repeat', () => {
  // 8 for 7.5 is a fifteenth too much, and 15 are two of it exactly.
  expect(roundPeriod(px(7.5), { tolerance: 8 / 7.5 - 1 })).toMatchObject({ repeats: 1, period: 8 });
  expect(roundPeriod(px(7.5), { tolerance: 0.066 })).toMatchObject({ repeats: 2, period: 15 });
  expect(roundPeriod(px(1))).toEqual({ repeats: 1, period: 1, scaleError: 0 });
});
