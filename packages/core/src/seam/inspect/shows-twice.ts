import { median } from '../../numeric/median.js';
import type { Raster } from '../../raster/raster.js';
import { findPeriods } from './find-period.js';
import { leastLength } from './inspect-axis.js';
import { likenessAt } from './likeness-at.js';
import { lookSmaller } from './look-smaller.js';
import { sampleColours } from './sample-colours.js';
import { toBands } from './to-bands.js';

const mostLines = 192;
// Of two courses, or two bricks, a line across them meets two joints; of grain it meets many.
const mostMarks = 2;
// What stands out half as far as whatever stands out most.
const standsOut = 0.5;
// Joints run through both halves of a picture, lumps that happen to be few do not.
const leastAlike = 0.5;
// Courses of headers come again where courses of stretchers do not: lines less like themselves a
// period on than this do not repeat, and of all that lines show so much must.
const leastLike = 0.3;
const mostStrange = 0.46;
// Joints wander by so many places.
const wander = 2;

/**
 * Tell whether a picture shows what it is made of twice along an axis, so that the one tells how the
 * other goes on: a course and a half of bricks meets itself with no step, and is no tile.
 *
 * @param raster - In linear light.
 * @param axis - `x` for what comes side by side.
 * @returns True of grain, which has no joints to come again.
 */
export function showsTwice(raster: Raster, axis: 'x' | 'y'): boolean {
  const lines = sampleColours(lookSmaller(raster).raster, axis, mostLines);
  if (lines.length < leastLength) return false;
  const { curves } = toBands(lines);
  if (median(Float64Array.from(curves, countMarks)) > mostMarks) return true;
  const [period] = findPeriods(curves);
  if (period === undefined) {
    const middle = curves.length >> 1;
    const halves = [sumOf(curves.slice(0, middle)), sumOf(curves.slice(middle))] as const;
    return likenessOf(...halves, 0) < leastAlike;
  }
  // A period is known to the nearest place.
  const holdsTwo = (curves[0]?.length ?? 0) >= 2 * period - 1;
  return holdsTwo && shareOfStrange(curves, period) <= mostStrange;
}

function shareOfStrange(curves: readonly Float64Array[], period: number): number {
  let [strange, all] = [0, 1e-9];
  for (const curve of curves) {
    const power = curve.reduce((sum, value) => sum + value * value, 0);
    all += power;
    if (likenessAfter(curve, period) < leastLike) strange += power;
  }
  return strange / all;
}

function likenessAfter(curve: Float64Array, period: number): number {
  let most = -1;
  for (let shift = period - wander; shift <= period + wander; shift++) {
    most = Math.max(most, likenessOf(curve, curve, shift));
  }
  return most;
}

function likenessOf(one: Float64Array, other: Float64Array, shift: number): number {
  return likenessAt([one], [other], { from: 0, to: one.length - shift, shift });
}

// Runs of places that stand out the way the farthest does.
function countMarks(curve: Float64Array): number {
  let most = 0;
  for (const value of curve) if (Math.abs(value) > Math.abs(most)) most = value;
  let count = 0;
  let isOut = false;
  for (const value of curve) {
    const wasOut = isOut;
    isOut = value / most > standsOut;
    if (isOut && !wasOut) count++;
  }
  return count;
}

function sumOf(curves: readonly Float64Array[]): Float64Array {
  const sum = new Float64Array(curves[0]?.length ?? 0);
  for (const curve of curves) for (let at = 0; at < sum.length; at++) sum[at]! += curve[at]!;
  return sum;
}
