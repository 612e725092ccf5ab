import { wrapInto } from '../../numeric/wrap-into.js';
import type { Raster } from '../../raster/raster.js';

/** A rectangle of whole pixels of a tile; past an edge it comes in at the other. */
export interface Window {
  /** Left edge. */
  readonly x: number;
  /** Top edge. */
  readonly y: number;
  /** Columns. */
  readonly width: number;
  /** Rows. */
  readonly height: number;
}

/**
 * Take a window out of a tile, in square roots of light, where equal steps look about equal.
 *
 * @param tile - In linear light.
 * @param window - No larger than the tile.
 * @returns Colour by colour, `width * height` each.
 */
export function takeWindow(tile: Raster, window: Window): Float32Array[] {
  return tile.planes.map((plane) => {
    const out = takePlane(plane, tile, window);
    for (let i = 0; i < out.length; i++) out[i] = Math.sqrt(Math.max(0, out[i]!));
    return out;
  });
}

/**
 * The same of one plane, as it is.
 *
 * @param plane - One number a pixel, row by row.
 * @param tile - Whose plane it is.
 * @param window - No larger than it.
 * @returns `width * height` samples.
 */
export function takePlane(
  plane: Float32Array,
  tile: Pick<Raster, 'width' | 'height'>,
  window: Window,
): Float32Array {
  const out = new Float32Array(window.width * window.height);
  for (let y = 0, at = 0; y < window.height; y++) {
    const row = wrapInto(window.y + y, tile.height) * tile.width;
    // Run by run, from edge to edge of the tile.
    for (let x = 0; x < window.width;) {
      const from = wrapInto(window.x + x, tile.width);
      const run = Math.min(window.width - x, tile.width - from);
      out.set(plane.subarray(row + from, row + from + run), at);
      at += run;
      x += run;
    }
  }
  return out;
}
