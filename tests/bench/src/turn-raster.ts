import { createRaster, type Raster } from '@gaugerod/core';

/**
 * Lay a picture on its side: rows become columns.
 *
 * @param raster - The picture.
 * @returns A new one.
 */
export function turnRaster(raster: Raster): Raster {
  const { width, height, planes } = raster;
  const out = createRaster(height, width);
  for (let channel = 0; channel < 3; channel++) {
    const from = planes[channel]!;
    const to = out.planes[channel]!;
    for (let y = 0, at = 0; y < height; y++) {
      for (let x = 0; x < width; x++, at++) to[x * height + y] = from[at]!;
    }
  }
  return out;
}
