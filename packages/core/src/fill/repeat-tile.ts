import { outOfRange } from '../errors/out-of-range.js';
import type { Raster } from '../raster/raster.js';
import { resampleRaster } from '../raster/resample-raster.js';
import type { PerAxis } from '../surface/measurement.js';
import type { AxisPlan } from './plan-tile.js';

/**
 * Lay a mended tile side by side as often as planned, and bring it to its whole number of dots. A
 * tile that is so already is returned as it is.
 *
 * @param tile - `workPeriod` pixels along each axis, seamless.
 * @param plan - As {@link planTile} gave it.
 * @returns A tile of `period` pixels along each axis, seamless.
 * @throws RangeError when the tile is not of the planned size.
 */
export function repeatTile(tile: Raster, plan: PerAxis<AxisPlan>): Raster {
  const { x, y } = plan;
  if (tile.width !== x.workPeriod || tile.height !== y.workPeriod) {
    throw outOfRange(
      `${x.workPeriod} x ${y.workPeriod} pixels`,
      'tile',
      `${tile.width} x ${tile.height}`,
    );
  }
  // Two copies worked on at twice the dots have as many pixels before as after.
  const single = x.copies === 1 && y.copies === 1;
  if (single && tile.width === x.period && tile.height === y.period) return tile;
  return resampleRaster(tile, {
    width: x.period,
    height: y.period,
    window: { x: 0, y: 0, width: x.copies * tile.width, height: y.copies * tile.height },
    wrap: { x: true, y: true },
  });
}
