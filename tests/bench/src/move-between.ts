import type { Measurement, Raster } from '@gaugerod/core';
import { changeAt, type LocalChange } from '@gaugerod/fixtures';

/** How a photo is made level. */
export type Rectification = NonNullable<Measurement['rectification']>;

/** No turn, no perspective, no lens. */
export const asItIs: Rectification = { matrix: [1, 0, 0, 0, 1, 0, 0, 0, 1], lens: 0 };

/** Two ways to make one photo level. */
export interface TwoWays {
  /** As found, or null where it was taken as level. */
  readonly found: Rectification | null;
  /** As drawn. */
  readonly truth: Rectification;
  /** The photo. */
  readonly size: Pick<Raster, 'width' | 'height'>;
}

/**
 * Find how many times larger an area becomes.
 *
 * @param change - How a picture moves about a point.
 * @returns Its determinant.
 */
export function areaOf(change: LocalChange): number {
  return change.right.x * change.down.y - change.right.y * change.down.x;
}

/**
 * Find how the level picture as found moves for a step in the true one.
 *
 * @param ways - Both, and the photo.
 * @param at - A place in the photo, as shares of its width and height.
 * @param at.x - 0 left, 1 right.
 * @param at.y - 0 top, 1 bottom.
 * @returns Identity where both agree about that place.
 */
export function moveBetween(
  ways: TwoWays,
  at: { readonly x: number; readonly y: number },
): LocalChange {
  const { size } = ways;
  const point = { x: at.x * size.width, y: at.y * size.height };
  const found = changeAt(ways.found ?? asItIs, size, point);
  const truth = changeAt(ways.truth, size, point);
  const det = areaOf(truth);
  const into = (x: number, y: number): { x: number; y: number } => {
    const u = (truth.down.y * x - truth.down.x * y) / det;
    const v = (truth.right.x * y - truth.right.y * x) / det;
    return { x: found.right.x * u + found.down.x * v, y: found.right.y * u + found.down.y * v };
  };
  return { right: into(1, 0), down: into(0, 1) };
}
