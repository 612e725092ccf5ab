import type { Outcome } from '../errors/outcome.js';
import type { Warning } from '../errors/warning.js';
import type { Raster } from '../raster/raster.js';
import type { PerAxis } from '../surface/measurement.js';
import { px, type Px } from '../units/units.js';
import { foldRows } from './fold-rows.js';
import { rankTracks } from './rank-tracks.js';

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

/** Under this, more answers are wrong than a tool may give: the picture is refused. */
const leastConfidence = 0.7;

/**
 * Find the courses of a wall, roof or boarding: how high, where, how sure.
 *
 * @param raster - A level photo; courses lie along its rows.
 * @returns The courses, or `no-courses` where the picture holds none.
 */
export function findCourses(raster: Raster): Outcome<CourseFit, 'no-courses'> {
  const cells = foldRows(raster);
  const [best] = rankTracks(cells);
  if (best === undefined || best.weight.confidence < leastConfidence) {
    return {
      ok: false,
      code: 'no-courses',
      message: 'no courses found in the picture',
      hint: 'give a span of known length, or count the courses yourself',
    };
  }
  const { placed } = best;
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
      confidence: best.weight.confidence,
    },
  };
}
