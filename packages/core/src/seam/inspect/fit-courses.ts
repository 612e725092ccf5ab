import { median } from '../../numeric/median.js';
import { vertexOff } from '../../numeric/vertex-off.js';
import { likenessAt } from './likeness-at.js';
import { nearestPeak } from './nearest-peak.js';
import { quantile } from './quantile.js';

/** How courses, or bricks along a course, come out at a picture's wrap. */
export interface CourseEnd {
  /** How much worse than from one to the next inside: 1 is the border. */
  readonly score: number;
  /** Places that are missing (below 0) or too many where it meets itself, or null without courses. */
  readonly misfit: number | null;
}

// What is usual inside is not known better than this: places, and a share of the course.
const leastOff = 1.5;
const leastShare = 0.02;
// So many times more where one place tells.
const doubt = 8;
// What comes of several courses tells of more than this, where joints are staggered.
const leastGross = 3;
const grossShare = 0.1;
// Two courses, or one where only one is known.
const leastLaid = 2.1;
// Deviations that one in some hundreds goes beyond, of many; and of so few that their deviation is a guess.
const many = 2.2;
const few = 6;
// Bell-shaped deviation of a median absolute deviation of 1.
const bell = 1.4826;
// Two places to a course, as far as these go, tell how much courses wander.
const mostPlaces = 24;
// A period that is none has its peaks anywhere: farther off than this share of it.
const mostWander = 0.16;
// Where what should fit is less alike, as stones of every size are, there are no courses to count.
const leastAlike = 0.45;
// Courses fit one on as well: of places that fit nearly as well, the nearest.
const nearlyAsWell = 0.55;

/**
 * Fit courses together across a picture's wrap: what lies before it, laid on what comes after, one
 * course on and several, fits best where? The same asked inside tells how much joints wander.
 *
 * @param curves - What the picture looks like along the axis, in bands, of one length, about 0.
 * @param periods - Places from course to course, and of several, rising; none where nothing repeats.
 * @returns By how much they miss; a score of 0 where nothing repeats.
 */
export function fitCourses(curves: readonly Float64Array[], periods: readonly number[]): CourseEnd {
  const none = { score: 0, misfit: null };
  const [period] = periods;
  if (period === undefined) return none;
  // Where one course is like the next but one, joints lie whole inside what is laid on each other.
  const pair = periods.findLast((shift) => shift <= leastLaid * period) ?? period;
  const two = judgeShift(curves, { period, shift: pair, size: pair });
  if (two === null) return none;
  const gross = periods
    .map((shift) => judgeShift(curves, { period, shift, size: period }))
    .filter((one) => one !== null);
  const wander = Math.max(two.wander, ...gross.map((one) => one.wander));
  const off = aroundMiddle(
    gross.slice(1).map((one) => one.misfit),
    period,
  );
  const score = Math.max(
    Math.abs(two.misfit) /
      Math.max(wander, leastOff, leastShare * (1 + doubt / two.places) * period),
    Math.abs(off) / Math.max(wander, leastGross, grossShare * period),
  );
  return { score, misfit: two.misfit };
}

function judgeShift(
  curves: readonly Float64Array[],
  {
    period,
    shift,
    size,
  }: { readonly period: number; readonly shift: number; readonly size: number },
): { readonly misfit: number; readonly wander: number; readonly places: number } | null {
  const length = curves[0]?.length ?? 0;
  const reach = Math.max(3, Math.round(period / 4));
  const fits = placesIn(length, period)
    .map((place) => fitAt(curves, place, { shift, size, reach }))
    .filter((fit) => fit !== null);
  if (median(Float64Array.from(fits, ({ likeness }) => likeness)) < leastAlike) return null;
  const inside = Float64Array.from(fits, ({ off }) => off);
  const middle = median(inside);
  const away = inside.map((off) => Math.abs(off - middle));
  if (inside.length < 2 || median(away) > mostWander * period) return null;
  const half = Math.floor(period / 2);
  const wrap = fitAt(curves.map(twice), length, { shift, size, reach: half });
  if (wrap === null) return null;
  const chance = bell * median(away) * (many + few / inside.length);
  const wander = Math.max(chance, quantile(away, 0.85));
  return { misfit: wrap.off - middle, wander, places: inside.length };
}

// Half a course too many is half a course missing: the middle of what lies around a circle, of two
// the lesser.
function aroundMiddle(offs: readonly number[], period: number): number {
  const ordered = offs.toSorted((one, other) => Math.abs(one) - Math.abs(other));
  if (ordered.length < 3) return ordered[0] ?? 0;
  let [best, least] = [0, Infinity];
  for (const from of ordered) {
    const turned = ordered.map((off) => off - period * Math.round((off - from) / period));
    const middle = median(Float64Array.from(turned));
    const sum = turned.reduce((all, off) => all + Math.abs(off - middle), 0);
    if (sum < least) [best, least] = [middle, sum];
  }
  return best;
}

// Half a course apart or more.
function placesIn(length: number, period: number): number[] {
  const count = Math.min(mostPlaces, Math.floor((2 * length) / period) - 1);
  return Array.from({ length: Math.max(0, count) }, (_, at) =>
    Math.round(((at + 1) * length) / (count + 1)),
  );
}

// Twice, one after another: what goes on around the end then lies in one piece.
function twice(curve: Float64Array): Float64Array {
  const out = new Float64Array(2 * curve.length);
  out.set(curve);
  out.set(curve, curve.length);
  return out;
}

interface Sought {
  /** How far apart what is laid on each other lies. */
  readonly shift: number;
  /** Places of it. */
  readonly size: number;
  /** How far what comes is looked for either way. */
  readonly reach: number;
}

// Places by which what comes after a place lies farther on than so many courses: where what lies half
// of that before it, moved on by all of it, fits best, and how well. Null too near to an end.
function fitAt(
  curves: readonly Float64Array[],
  place: number,
  { shift, size, reach }: Sought,
): { readonly off: number; readonly likeness: number } | null {
  const length = curves[0]?.length ?? 0;
  const first = place - ((shift + size) >> 1);
  const from = Math.max(0, first);
  const to = Math.min(first + size, length - shift - reach);
  if (to - from < size / 2) return null;
  const likeness = new Float64Array(2 * reach + 1);
  for (let at = 0; at < likeness.length; at++) {
    likeness[at] = likenessAt(curves, curves, { from, to, shift: shift + at - reach });
  }
  const best = nearestPeak(likeness, nearlyAsWell);
  return { off: best - reach + vertexOff(likeness, best), likeness: likeness[best]! };
}
