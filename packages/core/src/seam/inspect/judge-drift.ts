/** A steady drift from one end of a picture to the other, which makes a step where it meets itself. */
export interface Drift {
  /** What it comes to, end to end; 0 where the ends do not show it. */
  readonly step: number;
  /** What one in some hundreds of pictures without a drift comes to. */
  readonly spread: number;
}

// Deviations that one in some hundreds goes beyond, of many; and of so few that their deviation is a guess.
const many = 2.8;
const few = 6;
// A slow wave drifts too, but comes back to where it began: its ends differ by less of it than this.
const leastAtEnds = 0.5;
// Values this little alike are independent.
const leastAlike = 0.05;

/**
 * Judge whether a quantity drifts along a picture: a straight line fitted to it, its uncertainty from
 * what is left, of which neighbours that are alike count once.
 *
 * @param levels - Slab by slab, 4 or more.
 * @param waves - Waves along the picture, from one up, that are taken out first: they come back to
 * where they began.
 * @returns What it comes to, and what chance comes to.
 */
export function judgeDrift(levels: Float64Array, waves: number): Drift {
  const { length } = levels;
  const mean = levels.reduce((sum, level) => sum + level, 0) / length;
  const rest = levels.map((level) => level - mean);
  const line = Float64Array.from({ length }, (_, i) => i - (length - 1) / 2);
  for (let wave = 1; wave <= waves; wave++) {
    for (const phase of [0, Math.PI / 2]) {
      const curve = line.map((_, i) => Math.cos((2 * Math.PI * wave * i) / length - phase));
      takeOut(rest, curve);
      takeOut(line, curve);
    }
  }
  const size = product(line, line);
  const step = length * takeOut(rest, line);
  const fitted = 2 + 2 * waves;
  const deviation = Math.sqrt(product(rest, rest) / Math.max(1, length - fitted));
  const count = Math.max(1, independent(rest) - fitted);
  const reach = many + few / count;
  const alike = length / independent(rest);
  // Variance of a fitted slope, over the picture's length.
  const spread = reach * deviation * length * Math.sqrt(alike / size);
  const ends = endOf(levels.toReversed()) - endOf(levels);
  return { step: ends / step >= leastAtEnds ? step : 0, spread };
}

// Of a few slabs, for one may hold anything.
function endOf(levels: Float64Array): number {
  const size = Math.max(1, Math.round(levels.length / 6));
  return levels.subarray(0, size).reduce((sum, level) => sum + level, 0) / size;
}

// Take the share of a curve out of values, in place, and return it.
function takeOut(values: Float64Array, curve: Float64Array): number {
  const share = product(values, curve) / product(curve, curve);
  for (let i = 0; i < values.length; i++) values[i] = values[i]! - share * curve[i]!;
  return share;
}

function product(one: Float64Array, other: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < one.length; i++) sum += one[i]! * other[i]!;
  return sum;
}

// How many values are as good as independent of one another.
function independent(rest: Float64Array): number {
  const { length } = rest;
  let variance = 1e-12;
  for (const value of rest) variance += value * value;
  let alike = 1;
  for (let shift = 1; shift < length >> 1; shift++) {
    let product = 0;
    for (let i = 0, j = shift; j < length; i++, j++) product += rest[i]! * rest[j]!;
    const likeness = product / variance;
    if (likeness < leastAlike) break;
    alike += 2 * likeness;
  }
  return Math.max(2, length / alike);
}
