import { vertexOff } from '../../numeric/vertex-off.js';
import type { Raster } from '../../raster/raster.js';
import { levelCurve } from './level-curve.js';
import { likenessAt } from './likeness-at.js';
import { nearestPeak } from './nearest-peak.js';

/** How what lies on one side of a place goes on at the other. */
export interface Meeting {
  /** Likeness of the two sides where they meet, -1 to 1: joints that run through are alike. */
  readonly likeness: number;
  /** The same once one side is moved along the border for the best, which is 0 or more. */
  readonly best: number;
  /** By how many pixels it is then moved, down or to the right. */
  readonly shift: number;
}

// Rows or columns that stand for a side, at most: grain is laid together, not all of it is read.
const mostRead = 4;
// Moved by so many pixels at most.
const farthest = 12;
// Light that changes slowly along the border is alike on both sides whatever lies there.
const leastReach = 12;
// Likeness a period on that shows there is one.
const leastPeak = 0.25;
const nearlyAsHigh = 0.7;

/**
 * Compare the two sides of a place along their border.
 *
 * @param raster - In linear light.
 * @param axis - `x` for a column's left and right, `y` for a row's top and foot.
 * @param place - Between samples `place - 1` and `place`; 0 is the wrap.
 * @param width - Pixels of each side, at most half the picture.
 * @returns How they meet.
 */
export function meetAcross(raster: Raster, axis: 'x' | 'y', place: number, width: number): Meeting {
  const length = axis === 'x' ? raster.width : raster.height;
  const step = Math.max(1, Math.floor(width / mostRead));
  const before: number[] = [];
  const after: number[] = [];
  for (let at = 0; at < width; at += step) {
    before.push((place - 1 - at + length) % length);
    after.push((place + at) % length);
  }
  return correlate(layTogether(raster, axis, before), layTogether(raster, axis, after));
}

// Square roots of luminance along the border (Recommendation ITU-R BT.709), without slow changes.
function layTogether(raster: Raster, axis: 'x' | 'y', places: readonly number[]): Float64Array {
  const { width, height } = raster;
  const [red, green, blue] = raster.planes;
  const [across, along, next] = axis === 'x' ? [height, width, 1] : [width, 1, width];
  const sums = new Float64Array(across);
  for (const place of places) {
    for (let i = 0, at = place * next; i < across; i++, at += along) {
      const light = 0.2126 * red[at]! + 0.7152 * green[at]! + 0.0722 * blue[at]!;
      sums[i] = sums[i]! + Math.sqrt(light > 0 ? light : 0);
    }
  }
  return levelCurve(sums, Math.max(leastReach, across >> 4));
}

function correlate(before: Float64Array, after: Float64Array): Meeting {
  const most = Math.min(farthest, halfPeriod(before));
  const curve = new Float64Array(2 * most + 1);
  for (let at = 0; at < curve.length; at++) curve[at] = commonLikeness(before, after, at - most);
  const best = nearestPeak(curve, nearlyAsHigh);
  return {
    likeness: curve[most] ?? 0,
    best: Math.max(0, curve[best] ?? 0),
    shift: best - most + vertexOff(curve, best),
  };
}

// Lines moved by more than half of what lies between them are other lines.
function halfPeriod(line: Float64Array): number {
  const most = Math.min(2 * farthest, line.length >> 2);
  let before = 1;
  let hasDipped = false;
  for (let shift = 1; shift <= most; shift++) {
    const here = commonLikeness(line, line, shift);
    if (here < 0) hasDipped = true;
    if (hasDipped && here < before && before > leastPeak) return Math.max(2, (shift - 1) >> 1);
    before = here;
  }
  return most >> 1;
}

// Of the part that both have once the second is moved back by so many samples.
function commonLikeness(before: Float64Array, after: Float64Array, shift: number): number {
  const from = Math.max(0, -shift);
  const to = Math.min(before.length, before.length - shift);
  return likenessAt([before], [after], { from, to, shift });
}
