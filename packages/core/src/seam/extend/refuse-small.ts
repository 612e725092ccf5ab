import type { Outcome } from '../../errors/outcome.js';
import type { Size } from '../../units/parse-size.js';

/** Pixels: a smaller side shows nothing to make more of. */
export const leastSide = 16;

/**
 * Refuse a picture that nothing can be made of.
 *
 * @param size - Its size, in pixels.
 * @returns The refusal, or null where it is large enough.
 */
export function refuseSmall(
  size: Size<number>,
): Extract<Outcome<never, 'too-small'>, { ok: false }> | null {
  const { width, height } = size;
  if (Math.min(width, height) >= leastSide) return null;
  return {
    ok: false,
    code: 'too-small',
    message: `a picture of ${width} x ${height} px is too small to make more of: ${leastSide} px each way are the least`,
    hint: 'use a larger photo',
  };
}
