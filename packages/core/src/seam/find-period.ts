// Shorter than this, a course is drawn too small to tell.
const leastPeriod = 6;
// Of likeness, to be the period itself.
const nearlyAsHigh = 0.8;

/** How courses are looked for. */
export interface PeriodOptions {
  /** Likeness (0 to 1) a course on, below which there are none. */
  readonly leastLike: number;
  /** The longest course, as a share of the picture. */
  readonly share: number;
}

/**
 * Find how far apart courses lie in a picture: the shift, up to a share of it, after which it is most
 * like itself for the first time.
 *
 * @param curves - What it looks like along an axis, without what changes slowly.
 * @param options - How far to look, and what is enough.
 * @returns Whole places, or null where nothing repeats.
 */
export function findPeriod(curves: readonly Float64Array[], options: PeriodOptions): number | null {
  const { leastLike, share } = options;
  const likeness = likenessToItself(curves, share);
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

// Correlation of the curves with themselves at every shift up to a share of their length.
function likenessToItself(curves: readonly Float64Array[], share: number): Float64Array {
  const length = curves[0]?.length ?? 0;
  const likeness = new Float64Array(Math.floor(length * share) + 1);
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
