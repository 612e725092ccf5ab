import type { Profile } from './find-places.js';
import { quantile } from './quantile.js';
import { usualValues } from './usual-values.js';

/** How the courses of a picture come out at its wrap. */
export interface CourseEnd {
  /** How much worse than from one course to the next inside: 1 is the border. */
  readonly score: number;
  /** Pixels that are missing (below 0) or too many where it meets itself, or null without courses. */
  readonly misfit: number | null;
}

// What is usual inside is not known better than this: pixels, and a share of the course.
const leastPixels = 1.25;
const leastShare = 0.02;

/**
 * Fit courses together across a picture's wrap: from what lies before it, where should the next
 * joint come, and where does it? The same asked at every course inside tells how much joints wander.
 *
 * @param profile - Of the picture along the axis.
 * @param period - Places from course to course, or null where nothing repeats.
 * @returns By how much they miss; a score of 0 where nothing repeats.
 */
export function fitCourses(profile: Profile, period: number | null): CourseEnd {
  const none = { score: 0, misfit: null };
  if (period === null) return none;
  const curves = [profile.means[0], profile.spreads];
  const places = findLike(curves, period);
  if (places.length < 3) return none;
  const misfits = Float64Array.from([0, ...places], (place) =>
    misfitAt(curves, place, { places, period }),
  );
  const inside = misfits.slice(1);
  const { least, most } = usualValues(inside, Int32Array.from(places), 0);
  const wander = Math.max(most, -least, leastPixels, leastShare * period);
  const misfit = misfits[0] ?? 0;
  return { score: Math.abs(misfit) / wander, misfit };
}

// Places inside before which it looks as before the wrap, a course apart at least.
function findLike(curves: readonly Float64Array[], period: number): number[] {
  const length = curves[0]?.length ?? 0;
  const distances = new Float64Array(length);
  for (let place = period; place < length; place++) {
    distances[place] = unlike(curves, place - period, length - period, period);
  }
  const near = Math.max(2, Math.floor(0.6 * period));
  const places: number[] = [];
  for (let place = period; place <= length - 2 * period; place++) {
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
// what each of them says.
function misfitAt(
  curves: readonly Float64Array[],
  place: number,
  { places, period }: { readonly places: readonly number[]; readonly period: number },
): number {
  const most = Math.floor(period / 2);
  const said: number[] = [];
  for (const other of places) {
    if (other === place) continue;
    const distances = Float64Array.from({ length: 2 * most + 1 }, (_, at) =>
      unlike(curves, place, other + at - most, period),
    );
    let best = 0;
    for (let at = 1; at < distances.length; at++) if (distances[at]! < distances[best]!) best = at;
    said.push(most - best - dipOff(distances, best));
  }
  return quantile(Float64Array.from(said), 0.5);
}

// Around the end; a difference of light all along is none.
function unlike(curves: readonly Float64Array[], one: number, other: number, size: number): number {
  let sum = 0;
  for (const curve of curves) {
    const { length } = curve;
    let all = 0;
    for (let i = 0, a = (one + length) % length, b = (other + length) % length; i < size; i++) {
      const apart = curve[a]! - curve[b]!;
      all += apart;
      sum += apart * apart;
      if (++a === length) a = 0;
      if (++b === length) b = 0;
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
