import { expect, test } from 'vitest';
import { fitPlane } from '../../../packages/core/src/numeric/fit-plane.js';

const ones = (n: number): Float64Array => new Float64Array(n).fill(1);

test('five marks give their pitch and where it starts', () => {
  // Worked by least squares: 10.2 72.9 135.1 197.8 260.0 have pitch 62.45 and intercept 10.3.
  const z = Float64Array.of(10.2, 72.9, 135.1, 197.8, 260);
  const plane = fitPlane({
    u: Float64Array.of(0, 1, 2, 3, 4),
    v: new Float64Array(5),
    z,
    weight: ones(5),
  });
  expect(plane.b).toBeCloseTo(62.45, 2);
  expect(plane.a).toBeCloseTo(10.3, 1);
});

test('a stray point does not pull the plane away', () => {
  const u = Float64Array.from({ length: 40 }, (_, i) => i % 8);
  const v = Float64Array.from({ length: 40 }, (_, i) => Math.floor(i / 8));
  const z = u.map((x, i) => 3 + 20 * x + 0.5 * v[i]! + (i % 3) * 0.01);
  z[5] = 900;
  const plane = fitPlane({ u, v, z, weight: ones(40) });
  expect(plane.b).toBeCloseTo(20, 1);
  expect(plane.c).toBeCloseTo(0.5, 1);
});
