import { toLines } from './line-source.js';
import { createRaster, type Raster } from './raster.js';

/**
 * Swap rows and columns of a picture: what stands upright lies level.
 *
 * @param raster - The picture, left as it is.
 * @returns A raster of its own; where the picture is held as bytes, so is that.
 */
export function transposeRaster(raster: Raster): Raster {
  const held = toLines(raster).transposed?.();
  if (held !== undefined) return held;
  const { width, height } = raster;
  const out = createRaster(height, width);
  for (const [channel, plane] of raster.planes.entries()) {
    const to = out.planes[channel]!;
    // A block at a time, so that neither side leaves the cache.
    for (let top = 0; top < height; top += 32) {
      const bottom = Math.min(height, top + 32);
      for (let x = 0; x < width; x++) {
        for (let y = top; y < bottom; y++) to[x * height + y] = plane[y * width + x]!;
      }
    }
  }
  return out;
}
