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
  for (const [channel, plane] of planes.entries()) {
    const to = out.planes[channel]!;
    for (let y = 0; y < out.height; y++) {
      const from = plane.subarray(y * times * width, (y + 1) * times * width);
      const row = to.subarray(y * out.width, (y + 1) * out.width);
      if (times === 2) meanOfFour(from, row, width);
      else if (times === 3) meanOfNine(from, row, width);
      else meanOfMany(from, row, { width, times });
    }
  }
  return out;
}

// The two that photos of 10 to 30 megapixels come to, written out: a third of the time of the loop.
function meanOfFour(from: Float32Array, row: Float32Array, width: number): void {
  for (let x = 0, a = 0, b = width; x < row.length; x++, a += 2, b += 2) {
    row[x] = (from[a]! + from[a + 1]! + from[b]! + from[b + 1]!) / 4;
  }
}

function meanOfNine(from: Float32Array, row: Float32Array, width: number): void {
  for (let x = 0, a = 0, b = width, c = 2 * width; x < row.length; x++, a += 3, b += 3, c += 3) {
    const first = from[a]! + from[a + 1]! + from[a + 2]!;
    const second = from[b]! + from[b + 1]! + from[b + 2]!;
    row[x] = (first + second + from[c]! + from[c + 1]! + from[c + 2]!) / 9;
  }
}

function meanOfMany(
  from: Float32Array,
  row: Float32Array,
  { width, times }: { readonly width: number; readonly times: number },
): void {
  const scale = 1 / (times * times);
  for (let line = 0; line < times; line++) {
    let at = line * width;
    for (let x = 0; x < row.length; x++) {
      let sum = row[x]!;
      for (let i = 0; i < times; i++) sum += from[at++]!;
      row[x] = sum;
    }
  }
  for (let x = 0; x < row.length; x++) row[x]! *= scale;
}
