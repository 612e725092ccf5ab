import type { Homography } from './homography.js';

/**
 * Join two maps into one.
 *
 * @param second - Is done last.
 * @param first - Is done first.
 * @returns Both in one.
 */
export function multiplyHomographies(second: Homography, first: Homography): Homography {
  const [a, b, c, d, e, f, g, h, i] = first;
  const row = (p: number, q: number, r: number): [number, number, number] => [
    p * a + q * d + r * g,
    p * b + q * e + r * h,
    p * c + q * f + r * i,
  ];
  return [
    ...row(second[0], second[1], second[2]),
    ...row(second[3], second[4], second[5]),
    ...row(second[6], second[7], second[8]),
  ];
}
