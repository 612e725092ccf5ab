import type { PlacePair } from '../../numeric/solve-homography.js';
import type { Size } from '../../units/parse-size.js';
import type { Corners } from './sort-corners.js';

/**
 * Pair corners with where they lie on the real thing.
 *
 * @param corners - In order.
 * @param real - Its size, in any unit.
 * @returns Four pairs, in that unit.
 */
export function pairCorners(corners: Corners, real: Size<number>): PlacePair[] {
  const [a, b, c, d] = corners;
  const { width, height } = real;
  return [
    { from: a, to: { x: 0, y: 0 } },
    { from: b, to: { x: width, y: 0 } },
    { from: c, to: { x: width, y: height } },
    { from: d, to: { x: 0, y: height } },
  ];
}
