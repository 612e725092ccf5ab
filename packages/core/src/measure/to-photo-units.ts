import { toPhotoPoint } from '../surface/level-point.js';
import type { SeenWall } from './seen-wall.js';

/**
 * Take places in the picture that a wall was followed in back to the photo.
 *
 * @param seen - The wall.
 * @param x - Columns of its picture.
 * @param y - Rows.
 * @returns The same in units of half the photo's diagonal from its middle.
 */
export function toPhotoUnits(
  seen: SeenWall,
  x: ArrayLike<number>,
  y: ArrayLike<number>,
): { readonly u: Float64Array; readonly v: Float64Array } {
  const { part, left, top, rectification } = seen;
  const { photo, step } = part;
  const half = Math.hypot(photo.width, photo.height) / 2;
  const u = new Float64Array(x.length);
  const v = new Float64Array(x.length);
  for (let i = 0; i < x.length; i++) {
    const level = { x: (x[i]! + left) * step, y: (y[i]! + top) * step };
    const at = rectification === null ? level : toPhotoPoint(rectification, photo, level);
    u[i] = (at.x - photo.width / 2) / half;
    v[i] = (at.y - photo.height / 2) / half;
  }
  return { u, v };
}
