import type { Outcome } from '../errors/outcome.js';
import type { Warning } from '../errors/warning.js';
import type { Raster } from '../raster/raster.js';
import type { PerAxis } from '../surface/measurement.js';
import { px, type Px } from '../units/units.js';
import { findEvidence, type Evidence } from './find-evidence.js';
import { foldRows, type Cells } from './fold-rows.js';
import { placeJoints } from './place-joints.js';
import { type Candidate, scorePeriods, showLook } from './score-periods.js';
import { trackJoints } from './track-joints.js';
import { weighTrack } from './weigh-track.js';

/** Courses found in a picture. */
export interface CourseFit {
  /** Bed joint to bed joint. */
  readonly course: Px;
  /** Standard uncertainty of `course` (k = 1), as a fraction. */
  readonly uncertainty: number;
  /** y of one bed joint at the middle of the picture, 0 up to one course. */
  readonly courseOffset: number;
  /** Degrees that the courses fall to the right; below 0, they rise. */
  readonly tilt: number;
  /** y of each bed joint at the middle of the picture, top down, as found. */
  readonly joints: readonly number[];
  /** One brick with its joint along the course, or null where none was found. */
  readonly brick: Px | null;
  /** The smallest shift that lays the joints on themselves, or null where it cannot be told. */
  readonly repeat: PerAxis<Px | null>;
  /** The bond's catalogue id, or null. */
  readonly bond: string | null;
  /** 0 to 1: of answers given with 0.9, nine in ten are right. */
  readonly confidence: number;
}

const shortestCourse = 4.5;
const bands = Math.SQRT2;

interface Trial {
  readonly candidate: Candidate;
  readonly evidence: Evidence;
}

function listTrials(cells: Cells): Trial[] {
  const longest = cells.rows / 2.3;
  const trials: Trial[] = [];
  for (let course = shortestCourse; course < longest; course *= bands) {
    const to = Math.min(longest, course * bands);
    const evidence = findEvidence(cells, Math.sqrt(course * to));
    for (const candidate of scorePeriods(evidence, course, to))
      trials.push({ candidate, evidence });
  }
  trials.sort((a, b) => b.candidate.score - a.candidate.score);
  const kept: Trial[] = [];
  for (const trial of trials) {
    if (kept.length >= 8) break;
    const near = (other: Trial): boolean =>
      Math.abs(Math.log(other.candidate.course / trial.candidate.course)) < 0.05;
    if (!kept.some(near)) kept.push(trial);
  }
  return kept;
}

/**
 * Find the courses of a wall, roof or boarding: how high, where, how sure.
 *
 * @param raster - A level photo; courses lie along its rows.
 * @returns The courses, or `no-courses` where the picture holds none.
 */
export function findCourses(raster: Raster): Outcome<CourseFit, 'no-courses'> {
  const cells = foldRows(raster);
  const found = listTrials(cells).map(({ candidate, evidence }) => {
    const samples = showLook(evidence, candidate.look);
    const track = trackJoints(samples, candidate.course / evidence.step);
    return { candidate, evidence, track, ...weighTrack(samples, track, evidence) };
  });
  found.sort((a, b) => b.confidence - a.confidence);
  const best = found[0];
  if (best === undefined || best.confidence < 0.5) {
    return {
      ok: false,
      code: 'no-courses',
      message: 'no courses found in the picture',
      hint: 'give a span of known length, or count the courses yourself',
    };
  }
  const { step } = best.evidence;
  const placed = placeJoints(cells, {
    joints: best.track.joints.map((y) => (y + 0.5) * step),
    course: best.candidate.course,
    look: best.candidate.look,
  });
  const { course, first } = placed;
  const warnings: Warning[] = [];
  return {
    ok: true,
    warnings,
    value: {
      course: px(course),
      uncertainty: placed.uncertainty / course,
      courseOffset: first - Math.floor(first / course) * course,
      tilt: (Math.atan(placed.slope) * 180) / Math.PI,
      joints: placed.joints,
      brick: null,
      repeat: { x: null, y: null },
      bond: null,
      confidence: best.confidence,
    },
  };
}
