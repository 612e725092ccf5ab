import { createRaster, type Raster } from './raster.js';

/**
 * Turn columns into rows: what lay at x, y lies at y, x. What works along one axis works along the
 * other on the transposed picture.
 *
 * @param raster - The picture, left as it is.
 * @returns A raster of its own, `height` wide and `width` high.
 */
export function transposeRaster(raster: Raster): Raster {
  const { width, height } = raster;
  const out = createRaster(height, width);
  for (let channel = 0; channel < 3; channel++) {
    const from = raster.planes[channel]!;
    const to = out.planes[channel]!;
    // Blocks that fit the nearest cache: straight through, one of the two sides misses every time.
    for (let top = 0; top < height; top += 32) {
      const bottom = Math.min(height, top + 32);
      for (let x = 0; x < width; x++) {
        for (let y = top; y < bottom; y++) to[x * height + y] = from[y * width + x]!;
      }
    }
  }
  return out;
}
