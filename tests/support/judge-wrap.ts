import type { Raster } from '@gaugerod/core';
import { judgeSteps, type UsualLines } from '@gaugerod/fixtures';

// Lines on each side of a tile's wrap that are judged with it.
const near = 8;

/** What meets itself. */
export interface WrappedTile {
  /** Its pixels. */
  readonly raster: Raster;
  /** The line of the untouched work that became its first. */
  readonly first: number;
}

/**
 * Judge the steps where a tile meets itself against those at the same phase of untouched work: a bed
 * joint there is held against bed joints, the middle of a course against middles of courses.
 *
 * @param tile - What meets itself.
 * @param usual - The untouched work.
 * @param axis - Along which it meets itself.
 * @returns 1 is the border, under which untouched lines lie in 19 pictures of 20.
 */
export function judgeWrap(tile: WrappedTile, usual: UsualLines, axis: 'x' | 'y' = 'y'): number {
  const { raster, first } = tile;
  const length = axis === 'x' ? raster.width : raster.height;
  const places = Array.from({ length: 2 * near + 1 }, (_, i) => {
    const at = i - near;
    return { at, phase: first + at + (at < 0 ? length : 0) };
  });
  return judgeSteps({ raster, wraps: true, places }, usual, axis);
}
