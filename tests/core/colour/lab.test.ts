import { expect, test } from 'vitest';
import { toLab } from '../../../packages/core/src/colour/lab.js';

// CIE 1976 L*a*b* of sRGB colours under D65 (0.3127, 0.3290), worked out from the primaries of
// IEC 61966-2-1:1999 by CIE 15:2004, 8.2.1; published tables agree to 2 decimals.
test.each([
  ['red', [1, 0, 0], [53.2371, 80.0901, 67.2033]],
  ['green', [0, 1, 0], [87.7355, -86.1816, 83.1866]],
  ['blue', [0, 0, 1], [32.3009, 79.1953, -107.8555]],
  ['yellow', [1, 1, 0], [97.1386, -21.56, 94.4838]],
  ['white', [1, 1, 1], [100, 0, 0]],
  // The straight part of the curve: 903.3 times the luminance.
  ['nearly black', [0.001, 0.001, 0.001], [0.9033, 0, 0]],
] as const)('%s has the lightness and colour that CIE 1976 gives it', (_, light, lab) => {
  const planes = [
    Float32Array.of(light[0]),
    Float32Array.of(light[1]),
    Float32Array.of(light[2]),
  ] as const;
  toLab(planes);
  planes.forEach((plane, channel) => {
    expect(plane[0]).toBeCloseTo(lab[channel] ?? NaN, 2);
  });
});
