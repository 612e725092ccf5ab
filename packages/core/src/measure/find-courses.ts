import type { Outcome } from '../errors/outcome.js';
import type { Warning } from '../errors/warning.js';
import type { Homography } from '../numeric/homography.js';
import { multiplyHomographies } from '../numeric/multiply-homographies.js';
import type { Raster } from '../raster/raster.js';
import { transposeRaster } from '../raster/transpose-raster.js';
import type { FoundJoints } from '../surface/found-joints.js';
import type { CourseAxis, PerAxis, Rectification } from '../surface/measurement.js';
import { px, type Px } from '../units/units.js';
import { centreJoints } from './joints/centre-joints.js';
import type { FocalLength } from './find-focal-length.js';
import { findPerpends, type Perpends } from './bricks/find-perpends.js';
import { heedBricks } from './heed-bricks.js';
import { keepGauge } from './keep-gauge.js';
import { listJoints } from './bricks/list-joints.js';
import { lookLimits } from './look-limits.js';
import { maskCourses } from './joints/mask-courses.js';
import type { PlacedJoints } from './joints/place-joints.js';
import { seeWall } from './see-wall.js';
import type { SeenWall, SeeOptions } from './seen-wall.js';
import type { Straighten } from './slant/judge-stand.js';
import type { ScaleSpread } from './slant/spread-stand.js';
import { toDrift } from './to-drift.js';
import { toParts } from './to-parts.js';
import { chanceOfRight } from './joints/spread-of-course.js';

/** Courses found in a picture. Lengths are in pixels of the level picture. */
export interface CourseFit {
  /** Which way they are counted. */
  readonly axis: CourseAxis;
  /** Bed joint to bed joint. */
  readonly course: Px;
  /** Standard uncertainty of `course` (k = 1), as a fraction. */
  readonly uncertainty: number;
  /** What that is made of, likewise. */
  readonly parts: ScaleSpread;
  /** Standard uncertainty (k = 1) of a pixel's length along the courses over that down them. */
  readonly aspect: number;
  /** Where along `axis` one bed joint lies at the middle of the picture, 0 up to one course. */
  readonly courseOffset: number;
  /** Degrees that the courses are turned clockwise in the photo, at its middle. */
  readonly tilt: number;
  /** Where each bed joint lies along `axis` at the middle of the picture, as found. */
  readonly joints: readonly number[];
  /** One brick with its joint along the course, or null where none was found. */
  readonly brick: Px | null;
  /** The smallest shift that lays the joints on themselves, or null where it cannot be told. */
  readonly repeat: PerAxis<Px | null>;
  /** The bond's catalogue id, or null. */
  readonly bond: string | null;
  /** Two bonds' catalogue ids, where the work is laid in both and `bond` is null for it; else null. */
  readonly twoBonds: readonly [string, string] | null;
  /** 0 to 1: of answers given with 0.9, nine in ten are right within 1 %. */
  readonly confidence: number;
  /** From photo to level picture, or null where the photo is level as it is. */
  readonly rectification: Rectification | null;
  /** The joints themselves, for a picture of them. */
  readonly found: FoundJoints;
}

/** How courses are looked for. */
export interface FindCoursesOptions {
  /** `y` where they lie level or nearly so (unless told), `x` where they stand upright. */
  readonly axis?: CourseAxis;
  /** How far the photo may be straightened for it; `full` unless told. */
  readonly straighten?: Straighten;
  /** Focal length of the photo, where the camera's is known: it tells how far a wall foreshortens. */
  readonly focal?: FocalLength;
  /**
   * Whether perpends and what is left out are listed beside the bed joints, which only a picture of
   * them needs; they are unless told.
   */
  readonly listed?: boolean;
}

/** Under this, more answers are wrong than a tool may give: the picture is refused. */
const leastConfidence = 0.7;
/** The same, once it is known how well so few joints place them: an answer that is wide, and says so. */
const leastOfAll = 0.25;
/** So few courses are better counted. */
const fewCourses = 4;
/** Deviation of joints from equal courses, as a fraction of a course, that is worth a word. */
const mostUneven = 0.03;
/** Change of course height over the picture, as a fraction, that is worth a word. */
const mostDrift = 0.03;
/** Fall of the courses in degrees that is worth a word. */
const mostTilt = 0.5;

/**
 * Find the courses of a wall, roof or boarding: how high, where, how sure; turned up to 15 degrees
 * and seen at a slant.
 *
 * @param raster - A photo.
 * @param options - Which way courses lie, and how far the photo may be straightened.
 * @returns The courses, or `no-courses` where the picture holds none.
 */
export function findCourses(
  raster: Raster,
  options: FindCoursesOptions = {},
): Outcome<CourseFit, 'no-courses'> {
  const { axis = 'y', straighten = 'full', listed = true, ...how } = options;
  const see = { ...how, straighten, least: leastConfidence, enough: lookLimits.enough };
  const upright = axis === 'x';
  const found = fitCourses(upright ? transposeRaster(raster) : raster, see, listed);
  if (found === null || found.fit.confidence < leastOfAll) return noCourses(axis, straighten);
  const value = upright ? transposeFit(found.fit) : found.fit;
  return { ok: true, value, warnings: warn(value, { ...found, straighten }) };
}

interface Found {
  readonly fit: CourseFit;
  /** What to say of an odd course, or null. */
  readonly odd: string | null;
  /** Deviation of the joints from equal courses, as a fraction of a course. */
  readonly unevenness: number;
}

function fitCourses(raster: Raster, see: SeeOptions, listed: boolean): Found | null {
  const first = seeWall(raster, see);
  if (first === null) return null;
  const { seen, ...laid } = layBricks(first, see);
  const { fit, message } = keepGauge(toFit(seen, laid, listed ? raster : null));
  return { fit, odd: message, unevenness: seen.track.weight.unevenness };
}

interface Laid {
  readonly placed: PlacedJoints;
  readonly perpends: Perpends;
}

// What bricks were found may tell that the wall lies otherwise; then they are found again.
function layBricks(first: SeenWall, options: SeeOptions): Laid & { readonly seen: SeenWall } {
  const laid = { seen: first, ...findBricks(first) };
  const { placed, perpends } = laid;
  if (options.straighten !== 'full' || perpends.laid === null) return laid;
  const seen = heedBricks(first, { placed, bond: perpends.laid }, options);
  if (seen.raster === first.raster) return { ...laid, seen };
  const again = findBricks(seen, laid);
  return again.perpends.laid === null ? laid : { seen, ...again };
}

function findBricks(seen: SeenWall, before?: Laid): Laid {
  const { cells, track, raster, view, shown } = seen;
  const placed = centreJoints(cells, track.placed);
  const mask = maskCourses(placed, { width: raster.width, shown });
  const brick = before?.perpends.brick ?? null;
  const near = brick === null || !before ? null : (brick * placed.course) / before.placed.course;
  return { placed, perpends: findPerpends(raster, { placed, view, mask, near }) };
}

function toFit(seen: SeenWall, { placed, perpends }: Laid, photo: Raster | null): CourseFit {
  const { track, step, top, rectification } = seen;
  const { brick, repeat, courses, bond, laid, two } = perpends;
  const course = placed.course * step;
  const joints = placed.joints.map((y) => (y + top) * step);
  const first = (placed.first + top) * step;
  const parts = toParts(seen, placed.uncertainty / placed.course);
  const uncertainty = Math.hypot(parts.fit, parts.perspective, parts.lens);
  // That these are the courses, and that so many joints place them within 1 %.
  const confidence = track.weight.confidence * chanceOfRight(uncertainty, joints.length);
  return {
    axis: 'y',
    course: px(course),
    uncertainty,
    parts,
    aspect: rectification === null ? 0 : (seen.fit?.aspect ?? 0),
    courseOffset: first - Math.floor(first / course) * course,
    tilt: (Math.atan(seen.fit?.stand.slope ?? placed.slope) * 180) / Math.PI,
    joints,
    brick: brick === null ? null : px(brick * step),
    repeat: {
      x: repeat === null ? null : px(repeat * step),
      y: courses === null ? null : px(courses * course),
    },
    bond,
    twoBonds: two,
    confidence,
    rectification,
    found: listJoints(seen, placed, photo && { bond: laid, photo }),
  };
}

function noCourses(axis: CourseAxis, straighten: Straighten): Outcome<never, 'no-courses'> {
  const other =
    axis === 'y'
      ? 'say so where the courses stand upright (--axis x)'
      : 'leave --axis out where the courses lie level';
  const left = {
    full: '',
    level: 'let the photo be straightened wholly, ',
    none: 'let the photo be straightened, ',
  };
  return {
    ok: false,
    code: 'no-courses',
    message: 'no courses found in the picture',
    hint: `${left[straighten]}give a span of known length, count the courses yourself, or ${other}`,
  };
}

const swap: Homography = [0, 1, 0, 1, 0, 0, 0, 0, 1];

function transposeFit(fit: CourseFit): CourseFit {
  const rectification = fit.rectification && {
    matrix: multiplyHomographies(swap, multiplyHomographies(fit.rectification.matrix, swap)),
    lens: fit.rectification.lens,
  };
  return {
    ...fit,
    axis: 'x',
    tilt: -fit.tilt,
    repeat: { x: fit.repeat.y, y: fit.repeat.x },
    rectification,
    found: {
      ...fit.found,
      axis: 'x',
      rectification,
      leftOut: fit.found.leftOut.map(({ x, y, width, height }) => ({
        x: y,
        y: x,
        width: height,
        height: width,
      })),
    },
  };
}

interface Said extends Omit<Found, 'fit'> {
  readonly straighten: Straighten;
}

function warn(fit: CourseFit, { odd, unevenness, straighten }: Said): Warning[] {
  const warnings: Warning[] = [];
  const courses = fit.joints.length - 1;
  if (courses <= fewCourses) {
    const message = `only ${courses} courses show, too few to place them well: count them between two points, or take in more of the wall`;
    warnings.push({ code: 'few-courses', message });
  }
  if (odd !== null) {
    warnings.push({ code: 'irregular-courses', message: odd });
  } else if (unevenness > mostUneven) {
    const percent = (100 * unevenness).toFixed(0);
    const message = `the courses are uneven: joints lie ${percent} % of a course from where equal courses would have them`;
    warnings.push({ code: 'irregular-courses', message });
  }
  const uneven = tellScale(fit, straighten);
  if (uneven !== null) warnings.push({ code: 'uneven-scale', message: uneven });
  if (fit.twoBonds !== null) {
    const [one, other] = fit.twoBonds;
    const message = `the wall is laid in two bonds, ${one} and ${other}, so nothing repeats all over it: crop the photo to one of them`;
    warnings.push({ code: 'two-bonds', message });
  } else if (fit.bond === null) {
    const message = 'the bond could not be told, nor where it repeats along the courses';
    warnings.push({ code: 'bond-unknown', message });
  }
  return warnings;
}

function tellScale(fit: CourseFit, straighten: Straighten): string | null {
  const { axis, tilt } = fit;
  const drift = toDrift(fit);
  const cure = straighten === 'full' ? '' : '; let the photo be straightened';
  if (Math.abs(drift) > mostDrift) {
    const [more, less, there, here] =
      axis === 'y'
        ? ['higher', 'lower', 'at the foot of the picture', 'at its top']
        : ['wider', 'narrower', 'at the right of the picture', 'at its left'];
    const by = `${Math.abs(100 * drift).toFixed(1)} % ${drift > 0 ? more : less}`;
    return `courses are ${by} ${there} than ${here}: the scale is that of the middle${cure}`;
  }
  if (fit.rectification !== null || Math.abs(tilt) <= mostTilt) return null;
  const turned = axis === 'y' ? `fall to the ${tilt > 0 ? 'right' : 'left'}` : 'lean';
  return `courses ${turned} by ${Math.abs(tilt).toFixed(1)} degrees${cure || ', too little to be sure of'}`;
}
