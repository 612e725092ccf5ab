import type { Profile } from './find-places.js';

// Shorter than this, a course is drawn too small to tell.
const leastPeriod = 6;
// Likeness of the profile to itself a course on, below which there are none.
const leastLike = 0.45;
const nearlyAsHigh = 0.8;

/**
 * Find how far apart courses lie in a picture: the shift, up to a third of it, after which it is most
 * like itself for the first time.
 *
 * @param profile - Of the picture along an axis.
 * @returns Whole places, or null where nothing repeats.
 */
export function findPeriod(profile: Profile): number | null {
  const likeness = likenessToItself(sharpen(profile));
  const most = likeness.length - 1;
  let from = leastPeriod;
  while (from <= most && likeness[from]! > 0) from++;
  let best = from;
  for (let shift = from; shift <= most; shift++) {
    if (likeness[shift]! > likeness[best]!) best = shift;
  }
  if (!(best < most) || !(likeness[best]! >= leastLike)) return null;
  // The first peak that is nearly as high: two courses repeat as well as one.
  for (let shift = from; shift < best; shift++) {
    const here = likeness[shift]!;
    const isPeak = here >= likeness[shift - 1]! && here >= likeness[shift + 1]!;
    if (isPeak && here >= nearlyAsHigh * likeness[best]!) return shift;
  }
  return best;
}

// Correlation of the curves with themselves at every shift up to a third of their length.
function likenessToItself(curves: readonly Float64Array[]): Float64Array {
  const length = curves[0]?.length ?? 0;
  const likeness = new Float64Array(Math.floor(length / 3) + 1);
  for (let shift = 0; shift < likeness.length; shift++) {
    let product = 0;
    let one = 1e-9;
    let other = 1e-9;
    for (const curve of curves) {
      for (let i = 0, j = shift; j < length; i++, j++) {
        product += curve[i]! * curve[j]!;
        one += curve[i]! ** 2;
        other += curve[j]! ** 2;
      }
    }
    likeness[shift] = product / Math.sqrt(one * other);
  }
  return likeness;
}

// Lightness and its deviation as one curve each, without what changes slowly.
function sharpen({ means, spreads }: Profile): Float64Array[] {
  return [means[0], spreads].map((values) => {
    const { length } = values;
    const reach = Math.max(8, Math.floor(length / 8));
    const sums = new Float64Array(length + 1);
    for (let i = 0; i < length; i++) sums[i + 1] = sums[i]! + values[i]!;
    return values.map((value, i) => {
      const from = Math.max(0, i - reach);
      const to = Math.min(length, i + reach + 1);
      return value - (sums[to]! - sums[from]!) / (to - from);
    });
  });
}
