import type { TrackWeight } from './weigh-track.js';

/** A course height, and what its joints have to say. */
interface WeighedCourse {
  /** Bed joint to bed joint; of two, in pixels of one size. */
  readonly placed: { readonly course: number };
  /** Its joints. */
  readonly weight: TrackWeight;
}

/**
 * Tell whether a shorter course is the course, and a longer one two or more of it. Two courses repeat
 * as truly as one does, in a bond of headers over stretchers more truly: where the shorter divides
 * the longer, and its joints are nearly as strong and even, it is.
 *
 * @param shorter - One.
 * @param longer - The other.
 * @param share - Of what is asked of the shorter one, 1 or less.
 * @returns Whether it divides the other.
 */
export function dividesWell(shorter: WeighedCourse, longer: WeighedCourse, share = 1): boolean {
  const times = longer.placed.course / shorter.placed.course;
  const whole = Math.round(times);
  const [one, other] = [shorter.weight, longer.weight];
  return (
    whole >= 2 &&
    Math.abs(times / whole - 1) < 0.03 &&
    one.leastStrength > 0.66 * share * other.leastStrength &&
    one.leastWins > 0.6 * share * other.leastWins &&
    one.unevenness < 0.06
  );
}
