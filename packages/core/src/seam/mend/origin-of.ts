import type { PerAxis } from '../../surface/measurement.js';
import { shorterWay } from '../../numeric/shorter-way.js';
import { wrapInto } from '../../numeric/wrap-into.js';

/** How a tile was joined along one axis. */
export interface JoinedAxis {
  /** The pixel of the picture that became the tile's first. */
  readonly start: number;
  /** After how many pixels it repeats. */
  readonly period: number;
  /** Pixels of overlap. */
  readonly overlap: number;
  /**
   * Line by line across the axis, how many pixels from the tile's first on are what followed its end
   * in the picture. Across x these are the picture's rows, for x is joined first.
   */
  readonly border: Int32Array;
}

/**
 * Tell which pixel of a picture one of its tile is.
 *
 * @param ends - How the tile was joined, x first; null along an axis where nothing was.
 * @param x - Column, counted from the tile's first; past its end it comes in at the other.
 * @param y - Row, likewise.
 * @returns Column and row of the picture.
 */
export function originOf(ends: PerAxis<JoinedAxis | null>, x: number, y: number): PerAxis<number> {
  const row = ends.y === null ? y : comesFrom(ends.y, y, x);
  return { x: ends.x === null ? x : comesFrom(ends.x, x, row), y: row };
}

function comesFrom({ start, period, border }: JoinedAxis, place: number, line: number): number {
  const near = shorterWay(place, period);
  return near + (near < border[wrapInto(line, border.length)]! ? start + period : start);
}
