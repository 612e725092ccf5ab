import type { Raster } from '../raster/raster.js';

/** Lines of a picture along one axis, side by side in memory whichever axis it is. */
export interface SampledLines {
  /** Lines, 1 or more. */
  readonly count: number;
  /** Samples a line. */
  readonly length: number;
  /** `count * length` square roots of luminance, where equal steps look about equal. */
  readonly samples: Float32Array;
}

/**
 * Take lines out of a picture, evenly spread over it.
 *
 * @param raster - In linear light.
 * @param axis - `x` for rows, `y` for columns.
 * @param most - How many at most.
 * @returns Copies, in order.
 * @see Recommendation ITU-R BT.709, luminance of its primaries, which are those of sRGB
 */
export function sampleLines(raster: Raster, axis: 'x' | 'y', most: number): SampledLines {
  const { width, height } = raster;
  const [red, green, blue] = raster.planes;
  const [length, across] = axis === 'x' ? [width, height] : [height, width];
  const [along, next] = axis === 'x' ? [1, width] : [width, 1];
  const count = Math.min(across, most);
  const samples = new Float32Array(count * length);
  for (let line = 0; line < count; line++) {
    let from = Math.floor(((line + 0.5) * across) / count) * next;
    const end = (line + 1) * length;
    for (let at = line * length; at < end; at++) {
      const light = 0.2126 * red[from]! + 0.7152 * green[from]! + 0.0722 * blue[from]!;
      samples[at] = Math.sqrt(light > 0 ? light : 0);
      from += along;
    }
  }
  return { count, length, samples };
}
