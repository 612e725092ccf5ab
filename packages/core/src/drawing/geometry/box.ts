import { applyTo, type Matrix, type Spot } from '../../numeric/matrix.js';

/** A rectangle along the axes, from its least to its greatest corner. */
export interface Box {
  /** Left. */
  readonly x0: number;
  /** Top. */
  readonly y0: number;
  /** Right. */
  readonly x1: number;
  /** Bottom. */
  readonly y1: number;
}

/**
 * The corners of a rectangle after a transform.
 *
 * @param matrix - The transform.
 * @param box - The rectangle.
 * @returns Four points, round it.
 */
export function cornersOf(matrix: Matrix, box: Box): readonly Spot[] {
  const { x0, y0, x1, y1 } = box;
  const corners = [
    { x: x0, y: y0 },
    { x: x1, y: y0 },
    { x: x1, y: y1 },
    { x: x0, y: y1 },
  ];
  return corners.map((corner) => applyTo(matrix, corner));
}

/**
 * The smallest rectangle round points.
 *
 * @param spots - One or more.
 * @returns It.
 */
export function boxAround(spots: readonly Spot[]): Box {
  const box = { x0: Infinity, y0: Infinity, x1: -Infinity, y1: -Infinity };
  for (const { x, y } of spots) {
    box.x0 = Math.min(box.x0, x);
    box.y0 = Math.min(box.y0, y);
    box.x1 = Math.max(box.x1, x);
    box.y1 = Math.max(box.y1, y);
  }
  return box;
}

/**
 * What two rectangles share.
 *
 * @param a - One.
 * @param b - Another.
 * @returns Of no or negative size where they share nothing.
 */
export function shareOf(a: Box, b: Box): Box {
  return {
    x0: Math.max(a.x0, b.x0),
    y0: Math.max(a.y0, b.y0),
    x1: Math.min(a.x1, b.x1),
    y1: Math.min(a.y1, b.y1),
  };
}

/**
 * The smallest rectangle round two.
 *
 * @param a - One, or null for none.
 * @param b - Another, or null for none.
 * @returns It; null where there is neither.
 */
export function joinBoxes(a: Box | null, b: Box | null): Box | null {
  if (a === null || b === null) return a ?? b;
  return {
    x0: Math.min(a.x0, b.x0),
    y0: Math.min(a.y0, b.y0),
    x1: Math.max(a.x1, b.x1),
    y1: Math.max(a.y1, b.y1),
  };
}

/**
 * Whether a rectangle has an area.
 *
 * @param box - Any.
 * @returns No where it is a line, a point, or inside out.
 */
export function hasArea(box: Box): boolean {
  return box.x1 > box.x0 && box.y1 > box.y0;
}
