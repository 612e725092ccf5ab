import { createRaster, type Raster } from '@gaugerod/core';

/**
 * Turn a picture by a quarter, or mirror it.
 *
 * @param raster - Left as it is.
 * @param how - A quarter turn to the right, or right and left changed about.
 * @returns A raster of its own.
 */
export function turnQuarter(raster: Raster, how: 'right' | 'mirror'): Raster {
  const { width, height, planes } = raster;
  const out = how === 'right' ? createRaster(height, width) : createRaster(width, height);
  for (let y = 0, i = 0; y < height; y++) {
    for (let x = 0; x < width; x++, i++) {
      const to = how === 'right' ? x * height + (height - 1 - y) : y * width + (width - 1 - x);
      planes.forEach((plane, c) => {
        const target = out.planes[c];
        if (target) target[to] = plane[i]!;
      });
    }
  }
  return out;
}
