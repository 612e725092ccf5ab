import type { Outcome } from '../errors/outcome.js';
import type { Warning } from '../errors/warning.js';
import type { Raster } from '../raster/raster.js';
import type { FoundJoints } from '../surface/found-joints.js';
import type { PerAxis } from '../surface/measurement.js';
import { px, type Px } from '../units/units.js';
import { centreJoints } from './centre-joints.js';
import { findPerpends } from './find-perpends.js';
import { foldRows, type View } from './fold-rows.js';
import type { PlacedJoints } from './place-joints.js';
import { chanceOfRight } from './spread-of-course.js';
import { type RankedTrack, rankTracks } from './rank-tracks.js';

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
  /** The same joints, for a picture of them. */
  readonly found: FoundJoints;
  /** One brick with its joint along the course, or null where none was found. */
  readonly brick: Px | null;
  /** The smallest shift that lays the joints on themselves, or null where it cannot be told. */
  readonly repeat: PerAxis<Px | null>;
  /** The bond's catalogue id, or null. */
  readonly bond: string | null;
  /** 0 to 1: of answers given with 0.9, nine in ten are right within 1 %. */
  readonly confidence: number;
}

/** Under this, more answers are wrong than a tool may give: the picture is refused. */
const leastConfidence = 0.7;
/** Above this, there is no need to look in another way. */
const enough = 0.9;
/** So few courses are better counted. */
const fewCourses = 4;
/** Deviation of joints from equal courses, as a fraction of a course, that is worth a word. */
const mostUneven = 0.03;
/** Change of course height over the picture, as a fraction, that is worth a word. */
const mostDrift = 0.03;
/** Fall of the courses in degrees that is worth a word. */
const mostTilt = 0.5;

/**
 * Find the courses of a wall, roof or boarding: how high, where, how sure.
 *
 * @param raster - A level photo; courses lie along its rows.
 * @returns The courses, or `no-courses` where the picture holds none.
 */
export function findCourses(raster: Raster): Outcome<CourseFit, 'no-courses'> {
  const best = findBest(raster);
  if (best === null) {
    return {
      ok: false,
      code: 'no-courses',
      message: 'no courses found in the picture',
      hint: 'give a span of known length, count the courses yourself, or turn the photo so that its courses are level',
    };
  }
  const { placed, weight } = best;
  const { course, first } = placed;
  const { brick, repeat, courses, bond } = findPerpends(raster, best);
  const value: CourseFit = {
    course: px(course),
    uncertainty: placed.uncertainty / course,
    courseOffset: first - Math.floor(first / course) * course,
    tilt: (Math.atan(placed.slope) * 180) / Math.PI,
    joints: placed.joints,
    found: toFound(placed),
    brick: brick === null ? null : px(brick),
    repeat: {
      x: repeat === null ? null : px(repeat),
      y: courses === null ? null : px(courses * course),
    },
    bond,
    // That these are the courses, and that so many joints place them within 1 %.
    confidence:
      weight.confidence * chanceOfRight(placed.uncertainty / course, placed.joints.length),
  };
  return { ok: true, value, warnings: warn(value, weight.unevenness) };
}

function toFound({ joints, wins }: PlacedJoints): FoundJoints {
  return {
    axis: 'y',
    rectification: null,
    beds: joints.map((at, k) => ({ at, shows: Math.min(1, wins[k] ?? 0) })),
    perpends: [],
    leftOut: [],
  };
}

type SeenTrack = RankedTrack & { readonly view: View };

// A tall photo is folded to some 1300 rows first; only where nothing shows there are its finest
// courses looked for. Mortar no lighter or darker than its bricks is still of another colour.
function findBest(raster: Raster): SeenTrack | null {
  let best: SeenTrack | null = null;
  for (const height of new Set([Math.max(1, Math.floor(raster.height / 1300)), 1])) {
    for (const view of ['lightness', 'warmth'] as const) {
      const cells = foldRows(raster, height, view);
      const [track] = rankTracks(cells);
      if (track && track.weight.confidence > (best?.weight.confidence ?? leastConfidence)) {
        const placed = enlarge(centreJoints(cells, track.placed), height);
        best = { ...track, placed, view };
      }
      if (best && best.weight.confidence > enough) return best;
    }
  }
  return best;
}

function enlarge(placed: PlacedJoints, times: number): PlacedJoints {
  const { course, uncertainty, first, joints } = placed;
  return {
    ...placed,
    course: course * times,
    uncertainty: uncertainty * times,
    first: first * times,
    joints: joints.map((y) => y * times),
  };
}

// How far the course height changes from the top of the picture to the bottom, as a fraction: the
// slope of the spacings, by their first and last thirds.
function toDrift({ joints, course }: CourseFit): number {
  const third = Math.floor((joints.length - 1) / 3);
  if (third < 2) return 0;
  const last = joints.length - 1;
  const above = (joints[third]! - joints[0]!) / third;
  const below = (joints[last]! - joints[last - third]!) / third;
  return (1.5 * (below - above)) / course;
}

function warn(fit: CourseFit, unevenness: number): Warning[] {
  const warnings: Warning[] = [];
  const courses = fit.joints.length - 1;
  if (courses <= fewCourses) {
    const message = `only ${courses} courses show, too few to place them well: count them between two points, or take in more of the wall`;
    warnings.push({ code: 'few-courses', message });
  }
  if (unevenness > mostUneven) {
    const percent = (100 * unevenness).toFixed(0);
    const message = `the courses are uneven: joints lie ${percent} % of a course from where equal courses would have them`;
    warnings.push({ code: 'irregular-courses', message });
  }
  const drift = toDrift(fit);
  if (Math.abs(fit.tilt) > mostTilt || Math.abs(drift) > mostDrift) {
    const message =
      Math.abs(drift) > mostDrift
        ? `courses are ${Math.abs(100 * drift).toFixed(1)} % ${drift > 0 ? 'higher' : 'lower'} at the foot of the picture than at its top: the scale is that of the middle`
        : `courses fall ${fit.tilt.toFixed(1)} degrees to the right: turn the photo level first`;
    warnings.push({ code: 'uneven-scale', message });
  }
  if (fit.bond === null) {
    const message = 'the bond could not be told, nor where it repeats along the courses';
    warnings.push({ code: 'bond-unknown', message });
  }
  return warnings;
}
