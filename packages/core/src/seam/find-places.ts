import type { SampledLines } from './sample-lines.js';

/** What a picture looks like along an axis, line upon line laid together. */
export interface Profile {
  /** Mean over the lines at each place. */
  readonly means: Float64Array;
  /** Deviation over the lines at each place. */
  readonly spreads: Float64Array;
}

/**
 * Lay lines together.
 *
 * @param lines - Of a picture.
 * @returns Their mean and deviation, place by place.
 */
export function toProfile(lines: SampledLines): Profile {
  const { count, length, samples } = lines;
  const means = new Float64Array(length);
  const spreads = new Float64Array(length);
  // Line by line, as they lie in memory: place by place takes several times as long.
  for (let from = 0; from < samples.length; from += length) {
    for (let at = 0; at < length; at++) {
      const value = samples[from + at]!;
      means[at] = means[at]! + value;
      spreads[at] = spreads[at]! + value * value;
    }
  }
  for (let at = 0; at < length; at++) {
    const mean = means[at]! / count;
    means[at] = mean;
    spreads[at] = Math.sqrt(Math.max(0, spreads[at]! / count - mean * mean));
  }
  return { means, spreads };
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
// So many places inside say what is usual.
const probes = 48;

/**
 * Find where inside a picture it looks as it does at its wrap.
 *
 * @param profile - Of the picture along an axis, 12 places or more.
 * @returns Those places, and whether there are any.
 */
export function findPlaces(profile: Profile): Places {
  const length = profile.means.length;
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
  const strangeness = Math.sqrt(nearest / (usual + 1e-9));
  return { alike: Int32Array.from(alike).sort(), strangeness };
}

function unlike(profile: Profile, one: number, other: number, size: number): number {
  const { means, spreads } = profile;
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
  const last = profile.means.length - side;
  const every = Math.max(1, Math.floor((last - side) / probes));
  const nearest: number[] = [];
  for (let place = side; place <= last; place += every) {
    let least = Infinity;
    for (let other = side; other <= last; other++) {
      if (Math.abs(other - place) < side) continue;
      const distance = unlike(profile, place - side, other - side, 2 * side);
      if (distance < least) least = distance;
    }
    if (least < Infinity) nearest.push(least);
  }
  nearest.sort((a, b) => a - b);
  return nearest[Math.floor(0.95 * (nearest.length - 1))] ?? 0;
}
