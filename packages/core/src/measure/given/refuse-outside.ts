import type { Outcome } from '../../errors/outcome.js';
import type { Point } from '../../units/parse-point.js';
import type { Size } from '../../units/parse-size.js';

/**
 * Say where a point lies outside a picture.
 *
 * @param size - The picture.
 * @param points - Any number.
 * @returns A refusal, or null where all lie inside or on the border.
 */
export function refuseOutside(
  size: Size<number>,
  points: readonly Point[],
): Extract<Outcome<never, 'outside-photo'>, { ok: false }> | null {
  const { width, height } = size;
  const out = points.find(({ x, y }) => !(x >= 0 && x <= width && y >= 0 && y <= height));
  if (out === undefined) return null;
  return {
    ok: false,
    code: 'outside-photo',
    message: `the point ${out.x},${out.y} lies outside the picture, which is ${width} x ${height} px`,
    hint: 'points are x,y in pixels of the upright photo, from its top left corner',
  };
}
