import { confidenceTerms, confidenceWeights, type TrackFeatures } from './confidence-terms.js';
import type { PlacedJoints } from './place-joints.js';

/** What a track of joints has to say for itself. */
export interface TrackWeight extends TrackFeatures {
  /** 0 to 1: of answers given with 0.9, nine in ten are right. */
  readonly confidence: number;
}

function valueAt(samples: Float32Array, y: number): number {
  const i = Math.min(samples.length - 2, Math.max(0, Math.floor(y)));
  return samples[i]! + Math.min(1, Math.max(0, y - i)) * (samples[i + 1]! - samples[i]!);
}

// A comb on half the true course meets a joint with every second tooth only, on a third of it with
// every third: the mean of those that do worst.
function leastMean(values: readonly number[]): number {
  let least = mean(values);
  for (const every of [2, 3]) {
    if (values.length < 2 * every + 1) continue;
    for (let first = 0; first < every; first++) {
      least = Math.min(least, mean(values.filter((_, k) => k % every === first)));
    }
  }
  return least;
}

/** Where joints were followed: evidence of one look, and rows to a sample of it. */
export interface Followed {
  /** Evidence, 1 a certain joint. */
  readonly samples: Float32Array;
  /** Rows that a sample stands for. */
  readonly step: number;
  /** Samples that enough of the photo shows to tell. */
  readonly extent: number;
}

/**
 * Weigh joints.
 *
 * @param placed - Joints, three or more.
 * @param followed - What they were found in.
 * @returns Its features and how sure they make.
 */
export function weighTrack(placed: PlacedJoints, followed: Followed): TrackWeight {
  const { samples, step } = followed;
  const at = placed.joints.map((y) => y / step - 0.5);
  const courses = at.length - 1;
  const shown = at.map((y) => valueAt(samples, y));
  let rival = 0;
  for (let k = 0; k < courses; k++) {
    const gap = at[k + 1]! - at[k]!;
    let most = 0;
    for (let f = 0.25; f <= 0.751; f += 1 / 32) {
      most = Math.max(most, valueAt(samples, at[k]! + f * gap));
    }
    rival += most / courses;
  }
  // Second differences: courses may grow slowly up the picture, and still be even.
  let uneven = 0;
  for (let k = 1; k < courses; k++) {
    uneven += (at[k + 1]! - 2 * at[k]! + at[k - 1]!) ** 2 / (6 * (courses - 1));
  }
  const features = {
    strength: mean(shown),
    leastStrength: leastMean(shown),
    leastWins: leastMean(placed.wins),
    steadiness: placed.steadiness,
    rival,
    unevenness: (Math.sqrt(uneven) * step) / placed.course,
    span: Math.min(1, (at[courses]! - at[0]!) / followed.extent),
    courses,
  };
  const ranked = { ...features, rank: toRank(features) };
  return { ...ranked, confidence: toConfidence(ranked) };
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

// Both are logistic regressions, made on generated pictures alone (walls of every bond, roofs,
// boards and plates, whole and cut down to three courses, clean and stained; render, gravel,
// streaks, rubble and random ashlar): the first on which of several heights is the course, the
// second on whether the best of them is one at all.
function toRank(features: Omit<TrackFeatures, 'rank'>): number {
  const { strength, leastStrength, leastWins, rival, span, courses } = features;
  return (
    4.58 * strength +
    4.74 * leastStrength +
    7.17 * leastWins -
    10.52 * rival -
    14.1 * Math.min(0.15, features.unevenness) +
    0.16 * span -
    0.41 * Math.log(courses) -
    7.08 * (1 / courses) -
    2.82 * Math.max(0, Math.min(0.5, features.steadiness))
  );
}

function toConfidence(features: TrackFeatures): number {
  const score = confidenceTerms(features).reduce(
    (sum, term, i) => sum + term * confidenceWeights[i]!,
    0,
  );
  return 1 / (1 + Math.exp(-score));
}
