import { outOfRange } from '../errors/out-of-range.js';
import { createRaster, type Raster } from './raster.js';

/**
 * Make a picture a whole number of times smaller: each new pixel is the mean of a square of old
 * ones. Columns and rows that fill no square are left out at the right and at the foot.
 *
 * @param raster - The picture, left as it is.
 * @param times - A whole number of 1 up to the shorter side.
 * @returns A raster of its own, but for 1: the same.
 * @throws RangeError when `times` is anything else.
 */
export function shrinkRaster(raster: Raster, times: number): Raster {
  const { width, height, planes } = raster;
  if (!(Number.isInteger(times) && times >= 1 && times <= Math.min(width, height))) {
    throw outOfRange(`a whole number of 1 to ${Math.min(width, height)}`, 'times', times);
  }
  if (times === 1) return raster;
  const out = createRaster(Math.floor(width / times), Math.floor(height / times));
  const scale = 1 / (times * times);
  for (const [channel, plane] of planes.entries()) {
    const to = out.planes[channel]!;
    for (let y = 0; y < out.height; y++) {
      for (let row = y * times; row < (y + 1) * times; row++) {
        let at = row * width;
        for (let x = y * out.width; x < (y + 1) * out.width; x++) {
          let sum = to[x]!;
          for (let i = 0; i < times; i++) sum += plane[at++]!;
          to[x] = sum;
        }
      }
      for (let x = y * out.width; x < (y + 1) * out.width; x++) to[x]! *= scale;
    }
  }
  return out;
}
