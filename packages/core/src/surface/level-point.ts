import { applyHomography } from '../numeric/homography.js';
import { invertHomography } from '../numeric/invert-homography.js';
import type { Point } from '../units/parse-point.js';
import type { Size } from '../units/parse-size.js';
import type { Rectification } from './measurement.js';

/**
 * Find where a point of the photo lies in the level picture.
 *
 * @param rectification - How it is made level.
 * @param size - The photo, upright.
 * @param point - In pixels of the photo.
 * @returns In pixels of the level picture, which may be below 0.
 */
export function toLevelPoint(
  rectification: Rectification,
  size: Size<number>,
  point: Point,
): Point {
  const { matrix, lens } = rectification;
  const { width, height } = size;
  const { x, y } = point;
  const u = x - width / 2;
  const v = y - height / 2;
  const bend = 1 + (lens * 4 * (u * u + v * v)) / (width * width + height * height);
  return applyHomography(matrix, width / 2 + u * bend, height / 2 + v * bend);
}

/**
 * Find where a point of the level picture lies in the photo.
 *
 * @param rectification - How it is made level.
 * @param size - The photo, upright.
 * @param point - In pixels of the level picture.
 * @returns In pixels of the photo, perhaps outside it.
 */
export function toPhotoPoint(
  rectification: Rectification,
  size: Size<number>,
  point: Point,
): Point {
  const { matrix, lens } = rectification;
  const { width, height } = size;
  const free = applyHomography(invertHomography(matrix), point.x, point.y);
  const u = free.x - width / 2;
  const v = free.y - height / 2;
  const bend = (lens * 4) / (width * width + height * height);
  const far = Math.hypot(u, v);
  // Newton's way down r (1 + bend r^2) = far; a few steps reach the last digit.
  let r = far;
  for (let step = 0; step < 8; step++) {
    r -= (r * (1 + bend * r * r) - far) / (1 + 3 * bend * r * r);
  }
  const scale = far > 0 ? r / far : 1;
  return { x: width / 2 + u * scale, y: height / 2 + v * scale };
}
