import type { Random } from './create-random.js';

/** Courses of a tile. */
export interface BedPlan {
  /** How many. */
  readonly courses: number;
  /** Rows of the tile. */
  readonly height: number;
  /** By how much bed joints of the photos stray from equal courses, in pixels; one or more. */
  readonly strays: readonly number[];
}

// Of so many draws the one is taken that keeps the gauge best.
const draws = 8;

/**
 * Lay the bed joints of a tile, each straying as one of the photos' does, but not all of them one way
 * from top to bottom: that would be another gauge.
 *
 * @param plan - How many, and how they stray.
 * @param random - Decides.
 * @returns One more than there are courses: the last is the first, one tile further.
 */
export function layBeds(plan: BedPlan, random: Random): Float64Array {
  const { courses, height, strays } = plan;
  let best = new Float64Array(courses);
  let least = Infinity;
  for (let draw = 0; draw < draws; draw++) {
    const drawn = best.map(() => strays[Math.floor(random() * strays.length)]!);
    const slope = drawn.reduce((sum, stray, i) => sum + stray * (i - (courses - 1) / 2), 0);
    if (Math.abs(slope) < least) [best, least] = [drawn, Math.abs(slope)];
  }
  const beds = new Float64Array(courses + 1);
  for (let i = 0; i < courses; i++) beds[i] = (i * height) / courses + best[i]!;
  beds[courses] = beds[0]! + height;
  return beds;
}
