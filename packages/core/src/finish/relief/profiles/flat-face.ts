import type { ProfileShape } from './profile.js';

/** Of what is drawn by its figure alone. */
export const flatFace: ProfileShape = {
  ...{ edges: [], recesses: [], fillets: [], web: null, plain: null },
  rivetRows: () => [],
};

/**
 * Draw a rectangle, clockwise.
 *
 * @param x - Of its left side.
 * @param y - Of its top.
 * @param width - From left to right.
 * @param height - From top to foot.
 * @returns Points x, y, x, y….
 */
export function rectangle(x: number, y: number, width: number, height: number): Float64Array {
  return Float64Array.of(x, y, x + width, y, x + width, y + height, x, y + height);
}
