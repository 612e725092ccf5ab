import type { TrackWeight } from './weigh-track.js';

/** What the joints say for themselves, before it is put into one number. */
export type TrackFeatures = Omit<TrackWeight, 'confidence'>;

/**
 * Weights of {@link confidenceTerms}: a logistic regression on whether the best of the heights is
 * the course, made on drawn pictures alone. `npm run bench calibrate` makes it anew and prints it.
 */
export const confidenceWeights: readonly number[] = [
  -10.25, 7.06, -2.08, -2.03, 7.89, 2.05, -0.06, -2.8, 6.43, 0, 0,
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
  return [
    1,
    leastWins,
    strength,
    uneven,
    steady,
    steady * log,
    log,
    1 / courses,
    span,
    rank,
    rank / courses,
  ];
}
