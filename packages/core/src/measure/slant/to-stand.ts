import type { Stand } from './lay-plane.js';

/**
 * Numbers that are fitted: a, b, c over 1, g, h; the lens; the logarithm of the focal length; how
 * unevenly the wall was laid; where the camera looked straight ahead, across and down; bricks to
 * the camera's height above the wall; how courses grow and shrink again.
 */
export const standSize = 12;

/**
 * Read how a wall lies out of the numbers that are fitted: courses counted at `(u, v)` are
 * `(a u + b v + c) / (1 + g u + h v)`.
 *
 * @param theta - {@link standSize} numbers.
 * @returns How it lies.
 */
export function toStand(theta: Float64Array): Stand {
  const [a, b, c, g, h] = [theta[0]!, theta[1]!, theta[2]!, theta[3]!, theta[4]!];
  return {
    slope: -(a - c * g) / (b - c * h),
    across: g,
    down: h,
    focal: Math.exp(theta[6]!),
    ahead: { u: theta[8]!, v: theta[9]! },
  };
}
