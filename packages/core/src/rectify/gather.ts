import { createRaster, type Raster } from '../raster/raster.js';
import type { Footprint } from './footprint.js';
import { phases } from './local-kernel.js';
import type { Places } from './photo-map.js';

/** A run of new pixels, and where it lies in the photo. */
export interface Run extends Places {
  /** New pixels between the places: the first pixel's, and two more. */
  readonly pitch: number;
  /** New pixels in the run, at most twice `pitch`. */
  readonly count: number;
  /** Index of the first in the new planes; set anew for each row. */
  start: number;
}

const bits = Math.log2(phases);
const mask = phases - 1;

/**
 * Make a run of new pixels of the photo's samples.
 *
 * @param photo - In linear light; its border is held past its edge.
 * @param print - What goes into each of the pixels.
 * @param run - Which pixels, and where they lie.
 * @param out - The new planes.
 */
export function gather(photo: Raster, print: Footprint, run: Run, out: Raster['planes']): void {
  const { xs, ys } = run;
  // A pixel or two more than weights reach, for the rounding of places and the bend of the run.
  const tall = (print.down.taps >> 1) + 2;
  const wide = (print.across.taps >> 1) + Math.ceil(Math.abs(print.slant) * tall) + 2;
  const [x0, x1, x2] = [xs[0]!, xs[1]!, xs[2]!];
  const [y0, y1, y2] = [ys[0]!, ys[1]!, ys[2]!];
  const left = Math.floor(Math.min(x0, x1, x2)) - wide;
  const top = Math.floor(Math.min(y0, y1, y2)) - tall;
  const right = Math.ceil(Math.max(x0, x1, x2)) + wide;
  const bottom = Math.ceil(Math.max(y0, y1, y2)) + tall;
  if (left >= 0 && top >= 0 && right <= photo.width && bottom <= photo.height) {
    weighSamples(photo, print, run, out);
    return;
  }
  const padded = cutWithBorder(photo, { left, top, right, bottom });
  const moved = { xs: xs.map((x) => x - left), ys: ys.map((y) => y - top) };
  weighSamples(padded, print, { ...run, ...moved }, out);
}

interface Window {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

// What reaches past the photo's edge is taken from a small copy that goes on with the border.
function cutWithBorder(photo: Raster, { left, top, right, bottom }: Window): Raster {
  const padded = createRaster(right - left, bottom - top);
  for (let channel = 0; channel < 3; channel++) {
    const source = photo.planes[channel]!;
    const target = padded.planes[channel]!;
    let to = 0;
    for (let y = top; y < bottom; y++) {
      const row = Math.min(photo.height - 1, Math.max(0, y)) * photo.width;
      for (let x = left; x < right; x++) {
        target[to++] = source[row + Math.min(photo.width - 1, Math.max(0, x))]!;
      }
    }
  }
  return padded;
}

function weighSamples(photo: Raster, print: Footprint, run: Run, out: Raster['planes']): void {
  const { width } = photo;
  const [red, green, blue] = photo.planes;
  const [toRed, toGreen, toBlue] = out;
  const { across, down, slant } = print;
  const { xs, ys, pitch, count, start } = run;
  const { taps: tapsX, shift: shiftX, weights: weightsX } = across;
  const { taps: tapsY, shift: shiftY, weights: weightsY } = down;
  const [backX, backY] = [(tapsX - 1) >> 1, (tapsY - 1) >> 1];
  // The parabola through three places: value, slope and bend at the first.
  const [x0, y0] = [xs[0]! - 0.5, ys[0]! - 0.5];
  const bendX = (xs[2]! - 2 * xs[1]! + xs[0]!) / (2 * pitch * pitch);
  const bendY = (ys[2]! - 2 * ys[1]! + ys[0]!) / (2 * pitch * pitch);
  const slopeX = (xs[1]! - xs[0]!) / pitch - bendX * pitch;
  const slopeY = (ys[1]! - ys[0]!) / pitch - bendY * pitch;
  for (let k = 0; k < count; k++) {
    const x = x0 + k * (slopeX + k * bendX);
    const y = y0 + k * (slopeY + k * bendY);
    const placeY = Math.floor(y * phases + 0.5) + shiftY;
    const top = (placeY >> bits) - backY;
    const phaseY = (placeY & mask) * tapsY;
    let r = 0;
    let g = 0;
    let b = 0;
    for (let j = 0; j < tapsY; j++) {
      const placeX = Math.floor((x + slant * (top + j - y)) * phases + 0.5) + shiftX;
      let at = (top + j) * width + (placeX >> bits) - backX;
      const phaseX = (placeX & mask) * tapsX;
      let rowRed = 0;
      let rowGreen = 0;
      let rowBlue = 0;
      for (let i = phaseX; i < phaseX + tapsX; i++, at++) {
        const weight = weightsX[i]!;
        rowRed += weight * red[at]!;
        rowGreen += weight * green[at]!;
        rowBlue += weight * blue[at]!;
      }
      const weight = weightsY[phaseY + j]!;
      r += weight * rowRed;
      g += weight * rowGreen;
      b += weight * rowBlue;
    }
    toRed[start + k] = r;
    toGreen[start + k] = g;
    toBlue[start + k] = b;
  }
}
