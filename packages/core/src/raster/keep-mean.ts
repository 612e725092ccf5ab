import { meanLight } from './mean-light.js';
import type { Raster } from './raster.js';

/**
 * Make a picture as light, colour by colour, as the one that it was made of.
 *
 * @param from - In linear light.
 * @param raster - Its planes are written to.
 */
export function keepMean(from: Raster, raster: Raster): void {
  const wanted = meanLight(from);
  const got = meanLight(raster);
  for (let channel = 0; channel < 3; channel++) {
    const plane = raster.planes[channel]!;
    const factor = got[channel]! > 0 ? wanted[channel]! / got[channel]! : 1;
    for (let i = 0; i < plane.length; i++) plane[i] = plane[i]! * factor;
  }
}
