import { outOfRange } from '../errors/out-of-range.js';
import { type LineSource, toLines } from '../raster/line-source.js';
import type { Raster } from '../raster/raster.js';
import { resampleLines } from '../raster/resample-raster.js';
import type { PerAxis } from '../surface/measurement.js';
import { type CopiesPlan, layCopies } from './lay-copies.js';
import type { AxisPlan } from './plan-tile.js';

/**
 * Lay a mended tile side by side as often as planned, each copy on the nearest whole dot, so that all of
 * them end on one. A tile that is so already is returned as it is.
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
  return repeatLines(toLines(tile), plan);
}

/**
 * Lay a picture likewise that is of any size, and need not be held in linear light.
 *
 * @param lines - Seamless.
 * @param plan - How often it is laid, in how many dots.
 * @returns A tile of `period` pixels along each axis, seamless.
 */
export function repeatLines(lines: LineSource, plan: PerAxis<CopiesPlan>): Raster {
  const [across, down] = [onDots(lines.width, plan.x), onDots(lines.height, plan.y)];
  const copy = resampleLines(lines, {
    width: across.dots,
    height: down.dots,
    window: { x: 0, y: 0, width: across.extent, height: down.extent },
    wrap: { x: true, y: true },
  });
  return layCopies(copy, plan);
}

// A copy is true to scale, and so shows at its end a part of a dot of the next.
function onDots(
  length: number,
  { copies, period }: CopiesPlan,
): { readonly dots: number; readonly extent: number } {
  const exact = period / copies;
  const dots = Math.ceil(exact);
  return { dots, extent: (dots * length) / exact };
}
