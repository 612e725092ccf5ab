/** Courses, and where joints lie. */
interface Joints {
  /** Bed joint to bed joint. */
  readonly course: number;
  /** In the order in which they come. */
  readonly joints: readonly number[];
}

/**
 * Say how far the height of courses changes from the first to the last: the slope of the spacings,
 * by their first and last thirds.
 *
 * @param fit - Courses found in a picture.
 * @returns The change as a fraction of a course, above 0 where the last are the higher; 0 where too
 *   few show.
 */
export function toDrift(fit: Joints): number {
  const { joints, course } = fit;
  const third = Math.floor((joints.length - 1) / 3);
  if (third < 2) return 0;
  const last = joints.length - 1;
  const above = (joints[third]! - joints[0]!) / third;
  const below = (joints[last]! - joints[last - third]!) / third;
  return (1.5 * (below - above)) / course;
}
