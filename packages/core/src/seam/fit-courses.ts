import { median } from '../numeric/median.js';
import { quantile } from './quantile.js';

/** How courses, or bricks along a course, come out at a picture's wrap. */
export interface CourseEnd {
  /** How much worse than from one to the next inside: 1 is the border. */
  readonly score: number;
  /** Pixels that are missing (below 0) or too many where it meets itself, or null without courses. */
  readonly misfit: number | null;
}

/** What is known before courses are fitted. */
export interface FitOptions {
  /** Places from course to course, or null where nothing repeats. */
  readonly period: number | null;
  /** Pixels to a place. */
  readonly step: number;
  /** Fewer places inside that look like the wrap say nothing. */
  readonly leastPlaces: number;
}

// What is usual inside is not known better than this: pixels, and a share of the course.
const leastPixels = 1.25;
const leastShare = 0.02;
// Deviations that one in some hundreds goes beyond, of many; and of so few that their deviation is a guess.
const many = 2.8;
const few = 4;
// Bell-shaped deviation of a median absolute deviation of 1.
const bell = 1.4826;
// Enough to know how much courses wander, and what comes after one of them.
const mostPlaces = 24;
const mostOthers = 10;
// What comes fits where it comes: unlike it by this share at most of what it is anywhere.
const leastFit = 0.7;
// Courses fit one on as well: of places that fit nearly as well, the nearest.
const nearlyAsWell = 0.25;

/**
 * Fit courses together across a picture's wrap: from what lies before it, where should the next
 * joint come, and where does it? The same asked at every course inside tells how much joints wander.
 *
 * @param open - What the picture looks like along the axis, of one length.
 * @param options - What is known of it.
 * @returns By how much they miss; a score of 0 where nothing repeats.
 */
export function fitCourses(open: readonly Float64Array[], options: FitOptions): CourseEnd {
  const { period, step, leastPlaces } = options;
  const none = { score: 0, misfit: null };
  if (period === null) return none;
  const curves = open.map(closed);
  const places = spread(findLike(curves, period), mostPlaces);
  if (places.length < leastPlaces) return none;
  const by = { places, period };
  const misfit = misfitAt(curves, 0, by);
  if (misfit === null) return none;
  const told = places.length < 2 ? [] : places.map((place) => misfitAt(curves, place, by));
  const inside = told.filter((one) => one !== null);
  if (inside.length < places.length / 2 && places.length >= 2) return none;
  const off = Float64Array.from(inside, Math.abs);
  const usual = bell * median(off) * (many + few / places.length);
  // Where some courses are of another height, one at the wrap may be.
  const wander = step * Math.max(usual, quantile(off, 0.85));
  const border = Math.max(wander, leastPixels, leastShare * period * step);
  return { score: (step * Math.abs(misfit)) / border, misfit: step * misfit };
}

// At most so many of them, from end to end.
function spread(places: readonly number[], most: number): number[] {
  const every = Math.max(1, places.length / most);
  return places.filter((_, at) => Math.floor(at / every) !== Math.floor((at - 1) / every));
}

// Places inside before which it looks as before the wrap, a course apart at least.
function findLike(curves: readonly Float64Array[], period: number): number[] {
  const length = (curves[0]?.length ?? 0) / 2;
  const distances = new Float64Array(length);
  for (let place = period; place < length; place++) {
    distances[place] = unlike(curves, place - period, length - period, period);
  }
  const near = Math.max(2, Math.floor(0.6 * period));
  const places: number[] = [];
  for (let place = period; place <= length - 1.2 * period; place++) {
    let least = true;
    for (
      let other = Math.max(period, place - near);
      other <= Math.min(length - 1, place + near);
      other++
    ) {
      if (distances[other]! < distances[place]!) least = false;
    }
    if (least) places.push(place);
  }
  return places;
}

// Pixels by which what comes after a place lies farther than after the others like it: the middle of
// what each of them says; null where they do not know what comes.
function misfitAt(
  curves: readonly Float64Array[],
  place: number,
  { places, period }: { readonly places: readonly number[]; readonly period: number },
): number | null {
  const length = (curves[0]?.length ?? 0) / 2;
  const most = Math.floor(period / 2);
  const said: number[] = [];
  const depths: number[] = [];
  for (const other of spread(places, mostOthers)) {
    if (other === place) continue;
    const distances = new Float64Array(2 * most + 1);
    for (let at = 0; at < distances.length; at++) {
      const there = (other + at - most + length) % length;
      distances[at] = unlike(curves, place, there, period);
    }
    const best = nearestDip(distances, most);
    const mean = distances.reduce((sum, one) => sum + one, 0) / distances.length;
    depths.push(distances[best]! / Math.max(mean, 1e-9));
    said.push(most - best - dipOff(distances, best));
  }
  return median(Float64Array.from(depths)) > leastFit ? null : median(Float64Array.from(said));
}

function nearestDip(distances: Float64Array, middle: number): number {
  let best = middle;
  let highest = 0;
  for (let at = 0; at < distances.length; at++) {
    if (distances[at]! < distances[best]!) best = at;
    highest = Math.max(highest, distances[at]!);
  }
  const enough = distances[best]! + nearlyAsWell * (highest - distances[best]!);
  for (let apart = 0; apart <= middle; apart++) {
    for (const at of [middle - apart, middle + apart]) {
      const here = distances[at]!;
      const isDip =
        here <= (distances[at - 1] ?? Infinity) && here <= (distances[at + 1] ?? Infinity);
      if (isDip && here <= enough) return at;
    }
  }
  return best;
}

// Twice, one after another: what goes on around the end then lies in one piece.
function closed(curve: Float64Array): Float64Array {
  const twice = new Float64Array(2 * curve.length);
  twice.set(curve);
  twice.set(curve, curve.length);
  return twice;
}

// A difference of light all along is none.
function unlike(curves: readonly Float64Array[], one: number, other: number, size: number): number {
  let sum = 0;
  for (const curve of curves) {
    let all = 0;
    for (let a = one, b = other, end = one + size; a < end; a++, b++) {
      const apart = curve[a]! - curve[b]!;
      all += apart;
      sum += apart * apart;
    }
    sum -= (all * all) / size;
  }
  return sum;
}

function dipOff(curve: Float64Array, at: number): number {
  if (at === 0 || at === curve.length - 1) return 0;
  const before = curve[at - 1]!;
  const after = curve[at + 1]!;
  const bend = before - 2 * curve[at]! + after;
  return bend > 0 ? (before - after) / (2 * bend) : 0;
}
