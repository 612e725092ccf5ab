import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  decodeSrgb,
  decodeSrgb16,
  encodeSrgb,
  encodeSrgbRun,
  srgbToLinear,
} from '../../../packages/core/src/colour/srgb.js';

const planes = (size: number): [Float32Array, Float32Array, Float32Array] => [
  new Float32Array(size),
  new Float32Array(size),
  new Float32Array(size),
];

// IEC 61966-2-1:1999 worked by hand: c / 12.92 up to 0.04045, ((c + 0.055) / 1.055) ^ 2.4 above.
const worked: readonly (readonly [byte: number, light: number])[] = [
  [0, 0],
  [1, 0.00030353],
  [10, 0.00303527], // the last byte on the straight line
  [11, 0.00334654], // the first on the curve
  [32, 0.01444384],
  [64, 0.05126946],
  [127, 0.21223076],
  [128, 0.2158605],
  [187, 0.496933],
  [188, 0.50288646],
  [192, 0.52711513],
  [254, 0.9911021],
  [255, 1],
];

test.each(worked)('sRGB %i is %f in linear light', (byte, light) => {
  expect(Math.abs(srgbToLinear(byte) - light)).toBeLessThan(1e-7);
});

test('every byte comes back from linear light as itself', () => {
  const bytes = Uint8Array.from({ length: 768 }, (_, i) => Math.floor(i / 3));
  const light = planes(256);
  decodeSrgb(bytes, light);
  expect(encodeSrgbRun(light, 0, new Uint8Array(768))).toEqual(bytes);
});

// The same standard, worked the other way: 1.055 * x ^ (1 / 2.4) - 0.055, times 255, rounded.
test.each([
  [0.5, 188], // 187.51603: a chequer of black and white seen from afar, not 128
  [0.25, 137], // 136.96018
  [0.75, 225], // 224.61038
  [0.0625, 71], // 70.71257
  [0.18, 118], // 117.64581
])('light of %f is sRGB %i', (light, byte) => {
  expect(encodeSrgb(light)).toBe(byte);
});

test('light outside the range is clipped, and what is no number is black', () => {
  expect([-1, -0, NaN, 1.0001, Infinity, -Infinity].map(encodeSrgb)).toEqual([
    0, 0, 0, 255, 255, 0,
  ]);
});

test('light is encoded to the nearest byte', () => {
  const exact = (x: number): number =>
    255 * (x <= 0.0031308 ? 12.92 * x : 1.055 * x ** (1 / 2.4) - 0.055);
  fc.assert(
    fc.property(fc.float({ min: 0, max: 1, noNaN: true }), (light) => {
      // The standard's own two constants leave a gap of some 1e-7 between the branches.
      expect(Math.abs(encodeSrgb(light) - exact(light))).toBeLessThanOrEqual(0.5 + 1e-4);
    }),
    { numRuns: 20_000 },
  );
});

test('the border between two bytes is where the curve crosses the half', () => {
  // ((127.5 / 255 + 0.055) / 1.055) ^ 2.4 = (0.555 / 1.055) ^ 2.4 = 0.21404114
  expect([encodeSrgb(0.2140411), encodeSrgb(0.2140412)]).toEqual([127, 128]);
  // 0.5 / 255 / 12.92 = 0.000151764
  expect([encodeSrgb(0.0001517), encodeSrgb(0.0001518)]).toEqual([0, 1]);
});

test('16-bit samples keep what 8 bits would lose', () => {
  // 257 is 65535 / 255: a byte and its double word are the same light; 32896 = 128 * 257.
  const light = planes(2);
  decodeSrgb16(Uint16Array.of(32_896, 32_897, 0, 65_535, 257, 1), light);
  expect(light[0][0]).toBeCloseTo(0.2158605, 7);
  expect(light[1][0]!).toBeGreaterThan(light[0][0]!);
  expect(light[0][1]).toBe(1);
  expect(light[1][1]).toBeCloseTo(0.00030353, 7);
  expect(light[2][1]).toBeCloseTo(1 / 65_535 / 12.92, 10);
});

test('lengths that do not fit are refused', () => {
  expect(() => {
    decodeSrgb(new Uint8Array(5), planes(1));
  }).toThrow('expected 3 samples, or 4 with alpha for samples, got 5');
  expect(() => encodeSrgbRun(planes(1), 0, new Uint8Array(6))).toThrow(RangeError);
});
