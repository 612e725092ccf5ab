/** What the joints of a track say for themselves, before it is put into one number. */
export interface TrackFeatures {
  /** -1 to 1: mean evidence at the joints. */
  readonly strength: number;
  /** The same of every second joint, where that is less. */
  readonly leastStrength: number;
  /**
   * Share of stretches in which the joint is the strongest line about: over all joints, or over every
   * second or third one, where that is less.
   */
  readonly leastWins: number;
  /** -1 to 1: how evenly the joints show along their length. */
  readonly steadiness: number;
  /** Mean, over the courses, of the strongest line in the middle half of a course. */
  readonly rival: number;
  /** Deviation of the joints from equal spacing, as a fraction of a course. */
  readonly unevenness: number;
  /** Share of the picture's height that the joints span. */
  readonly span: number;
  /** Courses between the first joint and the last. */
  readonly courses: number;
  /** Higher where this is more likely the course than another height in the same picture. */
  readonly rank: number;
}

/** Fewer courses may be chance. */
const fewCourses = 5;
/** Rank of joints that stand out from all else. */
const clear = 7.5;

/**
 * Weights of {@link confidenceTerms}: a logistic regression on whether the best of the heights is
 * the course, made on drawn pictures alone; the last was set by hand, so that few courses that are
 * clear stay and others go. `npm run bench calibrate` makes all of it anew and prints it.
 */
export const confidenceWeights: readonly number[] = [
  -10.25, 7.06, -2.08, -2.03, 7.89, 2.05, -0.06, -2.8, 6.43, 1.5,
];

/**
 * Turn features into the terms whose weighted sum is the logit of confidence.
 *
 * @param features - Of the track that was ranked best.
 * @returns One number for each of {@link confidenceWeights}, the constant first.
 */
export function confidenceTerms(features: TrackFeatures): readonly number[] {
  const { strength, leastWins, span, courses, rank } = features;
  const steady = Math.max(0, Math.min(0.5, features.steadiness));
  const uneven = Math.min(8, (features.unevenness / 0.04) ** 2) * (courses >= 5 ? 1 : 0.5);
  const log = Math.log(courses);
  // Two or three spaces between joints come about by chance in most textures, but seldom between
  // joints that stand out from all else.
  const few = courses < fewCourses ? Math.min(0, rank - clear) : 0;
  return [1, leastWins, strength, uneven, steady, steady * log, log, 1 / courses, span, few];
}
