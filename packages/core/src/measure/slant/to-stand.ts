import type { Stand } from './lay-plane.js';

/**
 * Read how a wall lies out of the numbers that are fitted: courses counted at `(u, v)` are
 * `(a u + b v + c) / (1 + g u + h v)`.
 *
 * @param theta - a, b, c, g, h, the lens, the logarithm of the focal length, and more.
 * @returns How it lies.
 */
export function toStand(theta: Float64Array): Stand {
  const [a, b, c, g, h] = [theta[0]!, theta[1]!, theta[2]!, theta[3]!, theta[4]!];
  return {
    slope: -(a - c * g) / (b - c * h),
    across: g,
    down: h,
    focal: Math.exp(theta[6]!),
  };
}
