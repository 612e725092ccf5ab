import { outOfRange } from '../errors/out-of-range.js';
import { toLines } from './line-source.js';
import { createRaster, type Raster } from './raster.js';

/** A window on a picture in whole pixels, origin top left. */
export interface WholeWindow {
  /** First column, 0 or more. */
  readonly x: number;
  /** First row, 0 or more. */
  readonly y: number;
  /** Columns, 1 or more. */
  readonly width: number;
  /** Rows, 1 or more. */
  readonly height: number;
}

/**
 * Copy a window out of a picture.
 *
 * @param raster - The picture, left as it is.
 * @param window - Whole pixels, wholly inside the picture.
 * @returns A raster of its own.
 * @throws RangeError when the window is not whole or not inside.
 */
export function cropRaster(raster: Raster, window: WholeWindow): Raster {
  const { x, y, width, height } = window;
  const inside =
    [x, y, width, height].every(Number.isInteger) &&
    x >= 0 &&
    y >= 0 &&
    x + width <= raster.width &&
    y + height <= raster.height;
  if (!inside) {
    throw outOfRange(
      `a window inside ${raster.width} x ${raster.height} pixels`,
      'window',
      `${x},${y} ${width}x${height}`,
    );
  }
  const out = createRaster(width, height);
  const { line } = toLines(raster);
  for (let row = 0; row < height; row++) {
    for (const channel of [0, 1, 2] as const) {
      out.planes[channel].set(line(channel, y + row).subarray(x, x + width), row * width);
    }
  }
  return out;
}
