import { quantile } from './quantile.js';

// Shorter than this, a course is drawn too small to tell; longer than this share, it comes once.
const leastPeriod = 6;
const longest = 0.55;
// Of likeness, to be the period itself.
const nearlyAsHigh = 0.8;
const mostPeriods = 4;
const leastPeriods = 3;
// Likeness a course on, below which there are none; and how far over what it is at other shifts.
const leastLike = 0.05;
const overOthers = 5;
const surely = 0.18;
// A quarter of bell-shaped noise is less than this share of its deviation.
const quarter = 0.3186;

/**
 * Find how far apart courses lie in a picture: the shift, up to half of it, after which it is most
 * like itself for the first time; and shifts of several courses.
 *
 * @param curves - What it looks like along an axis, in bands, without what changes slowly.
 * @returns Whole places, rising, four at most; none where nothing repeats.
 */
export function findPeriods(curves: readonly Float64Array[]): number[] {
  const likeness = likenessToItself(curves);
  const period = findFirst(likeness);
  if (period === null) return [];
  const least = nearlyAsHigh * likeness[period]!;
  const periods = [period];
  for (let count = 2; count <= mostPeriods; count++) {
    // Joints wander, and a rounded period a little with every course.
    const at = highestNear(likeness, count * period, Math.max(2, Math.round(0.6 * count)));
    if (at !== null && likeness[at]! >= least) periods.push(at);
  }
  // Lumps of one size are like one another one on, but not two and three on.
  return likeness[period]! < surely && periods.length < leastPeriods ? [] : periods;
}

function highestNear(curve: Float64Array, near: number, reach: number): number | null {
  if (near + reach >= curve.length) return null;
  let best = near;
  for (let at = near - reach; at <= near + reach; at++) if (curve[at]! > curve[best]!) best = at;
  return best;
}

function findFirst(likeness: Float64Array): number | null {
  const most = likeness.length - 1;
  let from = leastPeriod;
  while (from <= most && likeness[from]! > 0) from++;
  let best = from;
  for (let shift = from; shift <= most; shift++) {
    if (likeness[shift]! > likeness[best]!) best = shift;
  }
  if (!(best < most)) return null;
  const others = likeness.slice(from).map(Math.abs);
  const noise = quantile(others, 0.25) / quarter;
  const least = Math.min(surely, Math.max(leastLike, overOthers * noise));
  if (!(likeness[best]! >= least)) return null;
  // The first peak that is nearly as high: two courses repeat as well as one.
  for (let shift = from; shift < best; shift++) {
    const here = likeness[shift]!;
    const isPeak = here >= likeness[shift - 1]! && here >= likeness[shift + 1]!;
    if (isPeak && here >= nearlyAsHigh * likeness[best]!) return shift;
  }
  return best;
}

// Correlation of the curves with themselves at every shift up to a share of their length.
function likenessToItself(curves: readonly Float64Array[]): Float64Array {
  const length = curves[0]?.length ?? 0;
  const likeness = new Float64Array(Math.floor(length * longest) + 1);
  // Of the samples before each place, so that their squares need not be summed at every shift.
  const power = new Float64Array(length + 1);
  for (const curve of curves) {
    for (let i = 0; i < length; i++) power[i + 1] = power[i + 1]! + curve[i]! * curve[i]!;
    for (let shift = 0; shift < likeness.length; shift++) {
      let product = 0;
      for (let i = 0, j = shift; j < length; i++, j++) product += curve[i]! * curve[j]!;
      likeness[shift] = likeness[shift]! + product;
    }
  }
  for (let i = 0; i < length; i++) power[i + 1] = power[i + 1]! + power[i]!;
  const all = power[length]!;
  for (let shift = 0; shift < likeness.length; shift++) {
    const one = power[length - shift]! + 1e-9;
    const other = all - power[shift]! + 1e-9;
    likeness[shift] = likeness[shift]! / Math.sqrt(one * other);
  }
  return likeness;
}
