import { toLab } from '../../colour/lab.js';
import type { Raster } from '../../raster/raster.js';
import { takeLines, type TakenLines } from './take-lines.js';

/** Lines of a picture, whose planes are L*, a* and b*. */
export type ColourLines = TakenLines;

/**
 * Take lines out of a picture in colours whose distances look equally large.
 *
 * @param raster - In linear light.
 * @param axis - `x` for rows, `y` for columns.
 * @param most - How many at most.
 * @returns Copies, in order.
 */
export function sampleColours(raster: Raster, axis: 'x' | 'y', most: number): ColourLines {
  const lines = takeLines(raster, axis, most);
  toLab(lines.planes);
  return lines;
}
