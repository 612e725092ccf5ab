import { toLevelPoint } from '../surface/level-point.js';
import type { Rectification } from '../surface/measurement.js';
import type { Part } from './seen-wall.js';

/**
 * Tell whether two ways to make a photo level come to the same: within a third of a pixel of what
 * is looked at.
 *
 * @param a - One, or null where the photo is level.
 * @param b - The other.
 * @param part - What is looked at.
 * @returns Whether a picture made by one can do for the other.
 */
export function isSameLevel(a: Rectification | null, b: Rectification | null, part: Part): boolean {
  if (a === null || b === null) return a === b;
  const { photo, step } = part;
  return [0, 0.5, 1].every((x) =>
    [0, 0.5, 1].every((y) => {
      const point = { x: x * photo.width, y: y * photo.height };
      const [p, q] = [toLevelPoint(a, photo, point), toLevelPoint(b, photo, point)];
      return Math.hypot(p.x - q.x, p.y - q.y) < 0.3 * step;
    }),
  );
}
