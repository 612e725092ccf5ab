/**
 * How finely courses are looked for. A photo that is made smaller as it is read is looked at by the
 * same, so that nothing is lost by it.
 */
export const lookLimits = {
  /** Pixels of the longer side: courses seldom need more. */
  longest: 1600,
  /** A course of fewer pixels is placed better in a larger picture. */
  leastCourse: 9,
  /** Above this confidence, there is no need to look in another way. */
  enough: 0.9,
} as const;
