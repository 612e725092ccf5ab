/** An affine transform [a b c d e f]: x' = a x + c y + e, y' = b x + d y + f. */
export type Matrix = readonly [number, number, number, number, number, number];

/** A point of a plane. */
export interface Spot {
  /** To the right. */
  readonly x: number;
  /** Down. */
  readonly y: number;
}

/** Leaves everything where it is. */
export const identity: Matrix = [1, 0, 0, 1, 0, 0];

/**
 * Do one transform after another.
 *
 * @param outer - Done last: that of what is around.
 * @param inner - Done first.
 * @returns Both in one.
 */
export function compose(outer: Matrix, inner: Matrix): Matrix {
  const [a, b, c, d, e, f] = outer;
  const [p, q, r, s, t, u] = inner;
  return [
    a * p + c * q,
    b * p + d * q,
    a * r + c * s,
    b * r + d * s,
    a * t + c * u + e,
    b * t + d * u + f,
  ];
}

/**
 * The way back.
 *
 * @param matrix - A transform.
 * @returns Its inverse, or null where it flattens the plane or is not finite.
 */
export function invert(matrix: Matrix): Matrix | null {
  const [a, b, c, d, e, f] = matrix;
  const area = a * d - b * c;
  const inverse: Matrix = [
    d / area,
    -b / area,
    -c / area,
    a / area,
    (c * f - d * e) / area,
    (b * e - a * f) / area,
  ];
  return inverse.every(Number.isFinite) ? inverse : null;
}

/**
 * Move a point.
 *
 * @param matrix - A transform.
 * @param spot - Before.
 * @returns After.
 */
export function applyTo(matrix: Matrix, spot: Spot): Spot {
  const [a, b, c, d, e, f] = matrix;
  const { x, y } = spot;
  return { x: a * x + c * y + e, y: b * x + d * y + f };
}
