import type { Homography } from './homography.js';

/** How a map's x grows with x and y, then its y. */
export type Slopes = readonly [xByX: number, xByY: number, yByX: number, yByY: number];

/**
 * Find how a homography stretches a small spot.
 *
 * @param map - Nine numbers, row by row.
 * @param x - Where the spot is.
 * @param y - The same.
 * @returns The four slopes of the map there; their determinant is how many times its area grows.
 */
export function slopesAt(map: Homography, x: number, y: number): Slopes {
  const [a, b, c, d, e, f, g, h, i] = map;
  const w = g * x + h * y + i;
  const [u, v] = [(a * x + b * y + c) / w, (d * x + e * y + f) / w];
  return [(a - u * g) / w, (b - u * h) / w, (d - v * g) / w, (e - v * h) / w];
}
