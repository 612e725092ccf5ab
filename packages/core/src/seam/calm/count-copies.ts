import { cropRaster } from '../../raster/crop-raster.js';
import type { Raster } from '../../raster/raster.js';
import type { PerAxis } from '../../surface/measurement.js';
import { findCopies } from '../copies/find-copies.js';

// Pixels by which so many copies may miss the picture's length.
const mostOff = 1;

/**
 * Count how often a tile holds the same along each axis, as one does that was laid several times.
 *
 * @param tile - In linear light.
 * @returns 1 where nothing comes again, or not a whole number of times.
 */
export function countCopies(tile: Raster): PerAxis<number> {
  const { x, y } = findCopies(tile);
  return { x: wholeTimes(tile.width, x.period), y: wholeTimes(tile.height, y.period) };
}

function wholeTimes(length: number, period: number | null): number {
  if (period === null) return 1;
  const times = Math.round(length / period);
  return Math.abs(length - times * period) <= mostOff ? times : 1;
}

/**
 * Take one of a tile's copies.
 *
 * @param tile - That holds them.
 * @param copies - How many along each axis.
 * @returns The first, to the nearest pixel; the tile itself where it is the only one.
 */
export function takeCopy(tile: Raster, copies: PerAxis<number>): Raster {
  if (copies.x === 1 && copies.y === 1) return tile;
  const width = Math.round(tile.width / copies.x);
  const height = Math.round(tile.height / copies.y);
  return cropRaster(tile, { x: 0, y: 0, width, height });
}
