import { outOfRange } from '../errors/out-of-range.js';
import { createRaster, type Raster } from '../raster/raster.js';
import type { PerAxis, Rectification } from '../surface/measurement.js';
import { footprint } from './footprint.js';
import { gather } from './gather.js';
import { mapPoints, type PhotoMap, photoMap } from './photo-map.js';

/** Which part of the level picture is wanted, and how large. */
export interface StraightenOptions {
  /** The part, in pixels of the level picture, seldom whole, wholly shown by the photo. */
  readonly window: {
    /** Left edge. */
    readonly x: number;
    /** Top edge. */
    readonly y: number;
    /** From left to right, above 0. */
    readonly width: number;
    /** From top to bottom, above 0. */
    readonly height: number;
  };
  /** New pixels per level pixel, above 0; 1 unless told. */
  readonly factor?: PerAxis<number>;
}

// New pixels that share one footprint: over so few the local scale does not change to speak of.
const tile = { width: 32, height: 8 };

/**
 * Straighten a photo in one resampling, lens and perspective together, straight to the size wanted.
 * Light is averaged where the picture is reduced and interpolated where it is enlarged, place by
 * place, so that the far side of a slanting wall does not flicker and the near side is not soft.
 * The size is `round(window * factor)`; the factor holds exactly.
 *
 * @param raster - The photo, in linear light, left as it is.
 * @param rectification - How it is made level.
 * @param options - Which part of the level picture, and how large.
 * @returns A raster of its own. What lies outside the photo is made of its border.
 * @throws RangeError when the window or a factor is not above 0, or the horizon crosses the window.
 */
export function straightenRaster(
  raster: Raster,
  rectification: Rectification,
  options: StraightenOptions,
): Raster {
  const { window, factor = { x: 1, y: 1 } } = options;
  const width = sideOf(window.x, window.width, factor.x);
  const height = sideOf(window.y, window.height, factor.y);
  const map = photoMap(raster, rectification, { x: window.x, y: window.y, factor });
  checkHorizon(map.matrix, width, height);
  const out = createRaster(width, height);
  for (let top = 0; top < height; top += tile.height) {
    const bottom = Math.min(height, top + tile.height);
    for (let left = 0; left < width; left += tile.width) {
      const right = Math.min(width, left + tile.width);
      fillTile(out, { raster, map }, { left, top, right, bottom });
    }
  }
  return out;
}

interface Tile {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

// Along so short a run, the way through the photo is as good as a parabola: three of its places
// are mapped, the others lie between them.
function fillTile(
  out: Raster,
  from: { readonly raster: Raster; readonly map: PhotoMap },
  { left, top, right, bottom }: Tile,
): void {
  const { raster, map } = from;
  const count = right - left;
  const print = footprint(map, left + count / 2, (top + bottom) / 2);
  const pitch = tile.width / 2;
  const run = { xs: new Float64Array(3), ys: new Float64Array(3), pitch, count, start: 0 };
  for (let y = top; y < bottom; y++) {
    mapPoints(map, { u: left + 0.5, v: y + 0.5, pitch }, run);
    run.start = y * out.width + left;
    gather(raster, print, run, out.planes);
  }
}

function sideOf(start: number, length: number, factor: number): number {
  if (!(factor > 0 && factor < Infinity)) {
    throw outOfRange('a finite number above 0', 'factor', factor);
  }
  if (!(length > 0 && length < Infinity && Number.isFinite(start))) {
    throw outOfRange('a window of finite size above 0', 'window', `${start} + ${length}`);
  }
  return Math.max(1, Math.round(length * factor));
}

// The way back divides by a number that is 0 on the horizon: of one sign in all four corners, it is
// so everywhere between them.
function checkHorizon(matrix: readonly number[], width: number, height: number): void {
  const [g = 0, h = 0, i = 0] = matrix.slice(6);
  const signs = [0, width].flatMap((u) => [0, height].map((v) => Math.sign(g * u + h * v + i)));
  if (signs.some((sign) => sign === 0 || sign !== signs[0])) {
    throw outOfRange('a window that the horizon does not cross', 'window', `${width} x ${height}`);
  }
}
