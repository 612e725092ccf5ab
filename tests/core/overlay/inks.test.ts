import { describe, expect, test } from 'vitest';
import { encodeSrgb } from '../../../packages/core/src/colour/srgb.js';
import { type Ink, inks } from '../../../packages/core/src/overlay/inks.js';

// Relative luminance and contrast as WCAG 2.2 defines them (W3C 2023, "relative luminance",
// "contrast ratio"); graphics need 3 to 1 (success criterion 1.4.11).
function luminance([red, green, blue]: Ink): number {
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

function contrast(a: Ink, b: Ink): number {
  const [p, q] = [luminance(a), luminance(b)];
  return (Math.max(p, q) + 0.05) / (Math.min(p, q) + 0.05);
}

type Matrix = readonly (readonly [number, number, number])[];

// What those see who lack a kind of cone, on linear sRGB. Vienot, Brettel and Mollon 1999, Digital
// video colourmaps for checking the legibility of displays by dichromats (in the form usual for
// sRGB); Machado, Oliveira and Fernandes 2009, A physiologically-based model for simulation of color
// vision deficiency, table of severity 1.0.
const eyes: Readonly<Record<string, Matrix>> = {
  'the usual eye': [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
  'protanopia (1999)': [
    [0.11238, 0.88762, 0],
    [0.11238, 0.88762, 0],
    [0.00401, -0.00401, 1],
  ],
  'deuteranopia (1999)': [
    [0.29275, 0.70725, 0],
    [0.29275, 0.70725, 0],
    [-0.02234, 0.02234, 1],
  ],
  'protanopia (2009)': [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
  ],
  'deuteranopia (2009)': [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.01182, 0.04294, 0.968881],
  ],
  'tritanopia (2009)': [
    [1.255528, -0.076749, -0.178779],
    [-0.078411, 0.930809, 0.147602],
    [0.004733, 0.691367, 0.3039],
  ],
  'no colour at all': [
    [0.2126, 0.7152, 0.0722],
    [0.2126, 0.7152, 0.0722],
    [0.2126, 0.7152, 0.0722],
  ],
};

function seenBy(eye: string, ink: Ink): Ink {
  const [red = 0, green = 0, blue = 0] = (eyes[eye] ?? []).map((row) =>
    Math.min(1, Math.max(0, row[0] * ink[0] + row[1] * ink[1] + row[2] * ink[2])),
  );
  return [red, green, blue];
}

// CIE 1976 L*a*b* from linear sRGB under D65 (IEC 61966-2-1 matrix, ISO/CIE 11664-4).
function toLab([red, green, blue]: Ink): readonly [number, number, number] {
  const bend = (t: number): number =>
    t > 216 / 24389 ? Math.cbrt(t) : (t * 24389) / 27 / 116 + 16 / 116;
  const x = bend((0.4124 * red + 0.3576 * green + 0.1805 * blue) / 0.9505);
  const y = bend(0.2126 * red + 0.7152 * green + 0.0722 * blue);
  const z = bend((0.0193 * red + 0.1192 * green + 0.9505 * blue) / 1.089);
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
}

function difference(a: Ink, b: Ink): number {
  const [p, q] = [toLab(a), toLab(b)];
  return Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]);
}

test('the colours are those of the published set', () => {
  // Okabe and Ito 2008: yellow, sky blue, vermilion.
  expect(inks.bed.map(encodeSrgb)).toEqual([240, 228, 66]);
  expect(inks.perpend.map(encodeSrgb)).toEqual([86, 180, 233]);
  expect(inks.mark.map(encodeSrgb)).toEqual([213, 94, 0]);
});

test.each([
  ['bed', 'dark'],
  ['perpend', 'dark'],
  ['paper', 'dark'],
  ['mark', 'paper'],
] as const)('%s stands out from its %s casing', (name, casing) => {
  expect(contrast(inks[name], inks[casing])).toBeGreaterThanOrEqual(3);
});

test('the casing stands out from a white wall, paler as it is drawn', () => {
  // White is kept at three quarters of its light.
  expect(contrast([0.75, 0.75, 0.75], inks.dark)).toBeGreaterThanOrEqual(3);
});

test('words stand out from the page', () => {
  // WCAG 2.2, 1.4.6: 7 to 1 for text at the strictest level.
  expect(contrast(inks.dark, inks.paper)).toBeGreaterThanOrEqual(7);
});

describe.each(Object.keys(eyes))('seen with %s', (eye) => {
  test.each([
    ['bed', 'perpend'],
    ['bed', 'mark'],
    ['perpend', 'mark'],
  ] as const)('%s and %s are told apart', (a, b) => {
    // A just noticeable difference is about 2.3 (Mahy, Van Eycken and Oosterlinck 1994): five of them.
    expect(difference(seenBy(eye, inks[a]), seenBy(eye, inks[b]))).toBeGreaterThan(11.5);
  });
});
