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

/**
 * Lay the bed joints of a tile, each straying as one of the photos' does.
 *
 * @param plan - How many, and how they stray.
 * @param random - Decides.
 * @returns One more than there are courses: the last is the first, one tile further.
 */
export function layBeds(plan: BedPlan, random: Random): Float64Array {
  const { courses, height, strays } = plan;
  const beds = new Float64Array(courses + 1);
  for (let i = 0; i < courses; i++) {
    beds[i] = (i * height) / courses + strays[Math.floor(random() * strays.length)]!;
  }
  beds[courses] = beds[0]! + height;
  return beds;
}
