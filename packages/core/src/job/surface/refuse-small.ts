import type { Outcome } from '../../errors/outcome.js';
import type { PerAxis } from '../../surface/measurement.js';
import type { Size } from '../../units/parse-size.js';

/** Dots worked on at once: 24 million are 288 MB in three planes of Float32. */
export const mostDots = 24e6;
// Fewer dots than this show nothing that could repeat.
const leastDots = 8;

/**
 * Refuse a photo that comes to hardly a dot.
 *
 * @param photo - Its pixels, once level.
 * @param factor - Printed dots to one of them.
 * @returns Why it makes no tile, or null.
 */
export function refuseSmall(
  photo: Size<number>,
  factor: PerAxis<number>,
): Extract<Outcome<never, 'too-small'>, { ok: false }> | null {
  const dots = { x: photo.width * factor.x, y: photo.height * factor.y };
  if (Math.min(dots.x, dots.y) >= leastDots) return null;
  return {
    ok: false,
    code: 'too-small',
    message: `all of the photo comes to ${dots.x.toFixed(1)} x ${dots.y.toFixed(1)} dots on paper`,
    hint: 'choose a larger scale or more dots per inch',
  };
}
