import type { Evidence } from './find-evidence.js';
import type { Track } from './track-joints.js';

/** What a track of joints has to say for itself, each about 0 for chance. */
export interface TrackWeight {
  /** Mean evidence at the joints. */
  readonly strength: number;
  /** Mean, over the courses, of the strongest rival line in the middle half of a course. */
  readonly rival: number;
  /** Deviation of the spacings from their slow change, as a fraction of a course. */
  readonly unevenness: number;
  /** Share of joints that show clearly. */
  readonly shown: number;
  /** Share of the picture's height that the joints span. */
  readonly span: number;
  /** Courses between the first joint and the last. */
  readonly courses: number;
  /** 0 to 1. */
  readonly confidence: number;
}

function valueAt(samples: Float32Array, y: number): number {
  const i = Math.min(samples.length - 2, Math.max(0, Math.floor(y)));
  return samples[i]! + (y - i) * (samples[i + 1]! - samples[i]!);
}

/**
 * Weigh a track of joints.
 *
 * @param samples - Evidence it was found in.
 * @param track - Joints.
 * @param evidence - How many stretches agree or not.
 * @returns Its features and how sure they make.
 */
export function weighTrack(samples: Float32Array, track: Track, evidence: Evidence): TrackWeight {
  const { joints } = track;
  const courses = joints.length - 1;
  const none = { strength: 0, rival: 1, unevenness: 1, shown: 0, span: 0, courses, confidence: 0 };
  if (courses < 2) return none;
  const at = joints.map((y) => valueAt(samples, y));
  const strength = at.reduce((sum, v) => sum + v, 0) / at.length;
  const shown = at.filter((v) => v > 0.35).length / at.length;
  const course = (joints[courses]! - joints[0]!) / courses;
  let rival = 0;
  let uneven = 0;
  for (let k = 0; k < courses; k++) {
    const gap = joints[k + 1]! - joints[k]!;
    let most = 0;
    for (let f = 0.25; f <= 0.751; f += 1 / 32) {
      most = Math.max(most, valueAt(samples, joints[k]! + f * gap));
    }
    rival += most / courses;
    uneven += (gap / course - 1) ** 2 / courses;
  }
  const span = (joints[courses]! - joints[0]!) / evidence.length;
  const unevenness = Math.sqrt(uneven);
  const score =
    6 * (strength - 0.55) -
    6 * (rival - 0.25) -
    20 * (unevenness - 0.06) +
    1.2 * Math.log(courses / 4) +
    1.5 * (span - 0.6) -
    1.2;
  return {
    strength,
    rival,
    unevenness,
    shown,
    span,
    courses,
    confidence: 1 / (1 + Math.exp(-2 * score)),
  };
}
