import type { Raster } from '../../raster/raster.js';
import { takeLines, type TakenLines } from './take-lines.js';

/** Lines of a picture in shades of grey. */
export interface SampledLines extends Pick<TakenLines, 'count' | 'length'> {
  /** `count * length` square roots of luminance, where equal steps look about equal. */
  readonly samples: Float32Array;
}

/**
 * Take lines out of a picture, by how light they look.
 *
 * @param raster - In linear light.
 * @param axis - `x` for rows, `y` for columns.
 * @param most - How many at most.
 * @returns Copies, in order.
 * @see Recommendation ITU-R BT.709, luminance of its primaries, which are those of sRGB
 */
export function sampleLines(raster: Raster, axis: 'x' | 'y', most: number): SampledLines {
  const { count, length, planes } = takeLines(raster, axis, most);
  const [red, green, blue] = planes;
  const samples = new Float32Array(count * length);
  for (let at = 0; at < samples.length; at++) {
    const light = 0.2126 * red[at]! + 0.7152 * green[at]! + 0.0722 * blue[at]!;
    samples[at] = Math.sqrt(light > 0 ? light : 0);
  }
  return { count, length, samples };
}
