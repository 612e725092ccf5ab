import type { ColourLines } from './sample-colours.js';

/** What a picture looks like along an axis, line upon line laid together. */
export interface Profile {
  /** Mean L*, a* and b* over the lines at each place. */
  readonly means: readonly [Float64Array, Float64Array, Float64Array];
  /** Deviation of L* over the lines at each place. */
  readonly spreads: Float64Array;
}

/**
 * Lay lines together.
 *
 * @param lines - Of a picture.
 * @returns Their mean and deviation, place by place.
 */
export function toProfile(lines: ColourLines): Profile {
  const { count, length } = lines;
  const [lightness, a, b] = lines.planes;
  const means = [sumUp(lightness, length), sumUp(a, length), sumUp(b, length)] as const;
  const spreads = new Float64Array(length);
  for (let from = 0; from < lightness.length; from += length) {
    for (let at = 0; at < length; at++) {
      const value = lightness[from + at]!;
      spreads[at] = spreads[at]! + value * value;
    }
  }
  for (const sums of means) for (let at = 0; at < length; at++) sums[at] = sums[at]! / count;
  for (let at = 0; at < length; at++) {
    spreads[at] = Math.sqrt(Math.max(0, spreads[at]! / count - means[0][at]! ** 2));
  }
  return { means, spreads };
}

// Line by line, as they lie in memory: place by place takes several times as long.
function sumUp(plane: Float32Array, length: number): Float64Array {
  const sums = new Float64Array(length);
  for (let from = 0; from < plane.length; from += length) {
    for (let at = 0; at < length; at++) sums[at] = sums[at]! + plane[from + at]!;
  }
  return sums;
}

/** How a picture's wrap compares with places inside it. */
export interface Places {
  /**
   * Places inside that look like the wrap from one of its sides, in order: a joint's are joints, a
   * brick's are bricks. Place p lies between samples p - 1 and p.
   */
  readonly alike: Int32Array;
  /**
   * How unlike every place inside the wrap looks from both its sides, over the 95th percentile of
   * what places inside are to each other: a course cut short looks like nowhere in the wall.
   */
  readonly strangeness: number;
}

// Samples looked at on each side: a joint and some of what is beside it.
const widestSide = 24;
// How many places stand for a phase: this share of all, from each side.
const share = 0.05;
const leastPlaces = 12;
// Units of lightness that nobody sees.
const nothing = 0.25;
// So many places inside say what is usual.
const probes = 48;

/**
 * Find where inside a picture it looks as it does at its wrap.
 *
 * @param profile - Of the picture along an axis, 12 places or more.
 * @returns Those places, and whether there are any.
 */
export function findPlaces(profile: Profile): Places {
  const length = profile.spreads.length;
  const side = Math.min(widestSide, Math.floor(length / 6));
  const size = length - 2 * side + 1;
  const before = new Float64Array(size);
  const after = new Float64Array(size);
  let nearest = Infinity;
  for (let i = 0; i < size; i++) {
    const place = side + i;
    before[i] = unlike(profile, length - side, place - side, side);
    after[i] = unlike(profile, 0, place, side);
    nearest = Math.min(nearest, before[i]! + after[i]!);
  }
  const count = Math.min(size, Math.max(leastPlaces, Math.round(share * length)));
  const alike = new Set<number>();
  for (const distances of [before, after]) {
    const limit = distances.toSorted()[count - 1]!;
    for (let i = 0; i < size; i++) if (distances[i]! <= limit) alike.add(side + i);
  }
  const usual = usualDistance(profile, side);
  const strangeness = Math.sqrt(nearest / (usual + 2 * side * nothing * nothing));
  return { alike: Int32Array.from(alike).sort(), strangeness };
}

function unlike(profile: Profile, one: number, other: number, size: number): number {
  const [means] = profile.means;
  const { spreads } = profile;
  let sum = 0;
  for (let i = 0; i < size; i++) {
    const mean = means[one + i]! - means[other + i]!;
    const spread = spreads[one + i]! - spreads[other + i]!;
    sum += mean * mean + spread * spread;
  }
  return sum;
}

// 95th percentile, over places inside, of the distance to the place most like them elsewhere.
function usualDistance(profile: Profile, side: number): number {
  const last = profile.spreads.length - side;
  const every = Math.max(1, Math.floor((last - side) / probes));
  const nearest: number[] = [];
  for (let place = side; place <= last; place += every) {
    let least = Infinity;
    for (let other = side; other <= last; other++) {
      if (Math.abs(other - place) < side) continue;
      const first = unlike(profile, place - side, other - side, side);
      // Most are too far apart already.
      if (first >= least) continue;
      const distance = first + unlike(profile, place, other, side);
      if (distance < least) least = distance;
    }
    if (least < Infinity) nearest.push(least);
  }
  nearest.sort((a, b) => a - b);
  return nearest[Math.floor(0.95 * (nearest.length - 1))] ?? 0;
}
