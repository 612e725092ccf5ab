import type { Point } from '../../units/parse-point.js';
import type { Corners } from './sort-corners.js';

/**
 * Move one corner along one axis.
 *
 * @param corners - Four.
 * @param which - 0 to 7: corner by corner, x before y.
 * @param by - Pixels.
 * @returns The four with that one moved.
 */
export function nudge(corners: Corners, which: number, by: number): Corners {
  const moved = ({ x, y }: Point, i: number): Point => {
    if (i !== which >> 1) return { x, y };
    return which % 2 === 0 ? { x: x + by, y } : { x, y: y + by };
  };
  const [a, b, c, d] = corners;
  return [moved(a, 0), moved(b, 1), moved(c, 2), moved(d, 3)];
}
