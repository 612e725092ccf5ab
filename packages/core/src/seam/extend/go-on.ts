import type { PerAxis } from '../../surface/measurement.js';
import { createRaster, type Raster } from '../../raster/raster.js';

/**
 * Let a picture that meets itself go on past its right and bottom edge.
 *
 * @param raster - Left as it is.
 * @param by - Columns and rows to add, whole, up to its own size; the same picture where both are 0.
 * @returns A raster of its own, or the same.
 */
export function goOn(raster: Raster, by: PerAxis<number>): Raster {
  if (by.x === 0 && by.y === 0) return raster;
  const { width, height } = raster;
  const out = createRaster(width + by.x, height + by.y);
  for (const [channel, from] of raster.planes.entries()) {
    const to = out.planes[channel]!;
    for (let y = 0; y < out.height; y++) {
      const row = from.subarray((y % height) * width, ((y % height) + 1) * width);
      to.set(row, y * out.width);
      to.set(row.subarray(0, by.x), y * out.width + width);
    }
  }
  return out;
}
