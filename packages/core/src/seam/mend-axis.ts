import { createRaster, type Raster } from '../raster/raster.js';
import { joinOverlap, type JoinMethod } from './join-overlap.js';
import { levelEnds } from './level-ends.js';
import { type Overlap, takeOverlap } from './overlap.js';

/** How one axis is to be mended. */
export interface MendAxisOptions {
  /** Columns after which the result repeats: whole, at most the picture's width. */
  readonly period: number;
  /** One bond repeat in pixels, or null. */
  readonly repeat: number | null;
  /** Whether the picture's top already meets its bottom, and must go on to. */
  readonly closed: boolean;
  /** How the ends are joined. */
  readonly method: JoinMethod;
}

/** A picture that repeats from left to right. */
export interface MendedAxis {
  /** `period` columns, as many rows as before. */
  readonly raster: Raster;
  /** Column of the picture that became its first. */
  readonly start: number;
  /** How its ends were joined: with nothing left over there is nothing to cut in. */
  readonly method: JoinMethod;
}

// Under this, an overlap offers no choice of cut.
const leastOverlap = 4;
// A correction of light fades out over as much as this past the overlap.
const widestMargin = 24;

/**
 * Make a picture repeat from left to right.
 *
 * @param raster - In linear light, left as it is.
 * @param options - After how much, and how.
 * @returns A raster of its own.
 */
export function mendAxis(raster: Raster, options: MendAxisOptions): MendedAxis {
  const { period, repeat, closed, method } = options;
  const level = levelEnds(raster, { period, repeat, closed });
  const surplus = raster.width - period;
  const cuts = surplus >= leastOverlap;
  const wanted = Math.round(repeat ?? raster.width / 6);
  const overlap = cuts ? Math.min(surplus, Math.max(16, wanted), period >> 1) : 0;
  const margin = Math.max(1, Math.min(widestMargin, (period - overlap) >> 1));
  const start = cuts ? bestStart(level, period, overlap) : 0;
  const out = cropColumns(level, start, period);
  if (!cuts && method === 'cut') return { raster: out, start, method };
  const used = cuts ? method : 'gradient';
  const windows = takeOverlap(level, { start, period, overlap, margin });
  const joined = joinOverlap(windows, { method: used, closed });
  putBack(out, windows, joined);
  return { raster: out, start, method: used };
}

// Where the picture and itself one period further are most alike, over a whole overlap.
function bestStart(raster: Raster, period: number, overlap: number): number {
  const { width, height } = raster;
  const room = width - period;
  if (room <= overlap) return 0;
  const unlike = new Float64Array(room);
  const every = Math.max(1, height >> 8);
  for (const plane of raster.planes) {
    for (let y = 0; y < height; y += every) {
      const row = y * width;
      for (let x = 0; x < room; x++) {
        const near = Math.sqrt(Math.max(0, plane[row + x]!));
        const step = near - Math.sqrt(Math.max(0, plane[row + x + period]!));
        unlike[x]! += step * step;
      }
    }
  }
  let sum = 0;
  for (let x = 0; x < overlap; x++) sum += unlike[x]!;
  let start = 0;
  let least = sum;
  for (let x = 1; x + overlap <= room; x++) {
    sum += unlike[x + overlap - 1]! - unlike[x - 1]!;
    if (sum < least) [start, least] = [x, sum];
  }
  return start;
}

function cropColumns(raster: Raster, start: number, period: number): Raster {
  const out = createRaster(period, raster.height);
  for (let channel = 0; channel < 3; channel++) {
    const from = raster.planes[channel]!;
    const to = out.planes[channel]!;
    for (let y = 0; y < raster.height; y++) {
      const row = y * raster.width + start;
      to.set(from.subarray(row, row + period), y * period);
    }
  }
  return out;
}

function putBack(out: Raster, windows: Overlap, joined: readonly Float32Array[]): void {
  const { width, height } = out;
  for (let channel = 0; channel < 3; channel++) {
    const from = joined[channel]!;
    const to = out.planes[channel]!;
    for (let y = 0; y < height; y++) {
      for (let x = 0; x < windows.width; x++) {
        const root = from[y * windows.width + x]!;
        const column = (x - windows.margin + width) % width;
        to[y * width + column] = root > 0 ? root * root : 0;
      }
    }
  }
}
