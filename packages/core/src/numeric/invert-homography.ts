import type { Homography } from './homography.js';

/**
 * Find the way back.
 *
 * @param map - From one plane to the other.
 * @returns Its inverse, scaled so that the last number is 1 where that can be.
 * @throws RangeError when it maps the plane onto a line.
 */
export function invertHomography(map: Homography): Homography {
  const [a, b, c, d, e, f, g, h, i] = map;
  const [p, q, r] = [e * i - f * h, f * g - d * i, d * h - e * g];
  const determinant = a * p + b * q + c * r;
  if (!(Math.abs(determinant) > 1e-12 && Math.abs(determinant) < Infinity)) {
    throw new RangeError('expected a homography that has a way back, got one that has none');
  }
  const last = a * e - b * d;
  const scale = 1 / (Math.abs(last) > 1e-12 * Math.abs(determinant) ? last : determinant);
  return [
    p * scale,
    (c * h - b * i) * scale,
    (b * f - c * e) * scale,
    q * scale,
    (a * i - c * g) * scale,
    (c * d - a * f) * scale,
    r * scale,
    (b * g - a * h) * scale,
    last * scale,
  ];
}
