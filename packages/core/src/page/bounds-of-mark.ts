import { applyTo, type Matrix } from '../numeric/matrix.js';
import type { DrawnArea, DrawnLine, DrawnMark } from './drawn.js';

/** An upright rectangle by its sides; its first are past its last where there is none. */
export interface Bounds {
  /** Left. */
  readonly x0: number;
  /** Above. */
  readonly y0: number;
  /** Right. */
  readonly x1: number;
  /** Below. */
  readonly y1: number;
}

/**
 * Bound what a mark paints, its clips left out of account: no point of it lies outside.
 *
 * @param mark - A shape with its line, or a picture.
 * @param pixels - The picture's columns and rows, where it is one.
 * @param pixels.width - Columns.
 * @param pixels.height - Rows.
 * @returns In mm of the part.
 */
export function boundsOfMark(
  mark: DrawnMark,
  pixels: { readonly width: number; readonly height: number },
): Bounds {
  const { matrix } = mark;
  if (mark.kind === 'shape') {
    return boundsOfSteps(mark.steps, matrix, mark.line === null ? 0 : reachOf(mark.line));
  }
  const { width, height } = pixels;
  const sides = [['M', 0, 0] as const, ['L', width, 0] as const, ['L', 0, height] as const];
  return boundsOfSteps([...sides, ['L', width, height]], matrix, 0);
}

/**
 * Bound what an area lets through.
 *
 * @param area - A clip.
 * @returns In mm of the part.
 */
export function boundsOfArea(area: DrawnArea): Bounds {
  return boundsOfSteps(area.steps, area.matrix, 0);
}

/**
 * Take what lies within both.
 *
 * @param one - A rectangle.
 * @param other - Another.
 * @returns Its sides; crossed where that is nothing.
 */
export function overlapOf(one: Bounds, other: Bounds): Bounds {
  return {
    x0: Math.max(one.x0, other.x0),
    y0: Math.max(one.y0, other.y0),
    x1: Math.min(one.x1, other.x1),
    y1: Math.min(one.y1, other.y1),
  };
}

// How far a line reaches from its path, in the path's units: a corner may stick out, a square end does.
function reachOf({ width, join, miterLimit }: DrawnLine): number {
  return (width / 2) * Math.max(Math.SQRT2, join === 'miter' ? miterLimit : 1);
}

// A curve lies within the points that it bends to.
function boundsOfSteps(steps: DrawnArea['steps'], matrix: Matrix, reach: number): Bounds {
  let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const [, ...numbers] of steps) {
    for (let i = 0; i + 1 < numbers.length; i += 2) {
      const { x, y } = applyTo(matrix, { x: numbers[i]!, y: numbers[i + 1]! });
      x0 = Math.min(x0, x);
      y0 = Math.min(y0, y);
      x1 = Math.max(x1, x);
      y1 = Math.max(y1, y);
    }
  }
  const [a, b, c, d] = matrix;
  const [across, down] = [reach * Math.hypot(a, c), reach * Math.hypot(b, d)];
  return { x0: x0 - across, y0: y0 - down, x1: x1 + across, y1: y1 + down };
}
