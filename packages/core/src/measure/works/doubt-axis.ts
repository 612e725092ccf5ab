import type { Outcome } from '../../errors/outcome.js';
import { cropRaster } from '../../raster/crop-raster.js';
import type { Raster } from '../../raster/raster.js';
import { shrinkRaster } from '../../raster/shrink-raster.js';
import { type CourseFit, findCourses, type FindCoursesOptions } from '../find-courses.js';

/** Courses found the other way are believed at this confidence and no less. */
const leastConfidence = 0.8;
/** A brick lies along its course where it is so many courses long: headers are half again as long. */
const leastLying = 1.3;
/**
 * The same where bricks lie in rows both ways, as tiles do: no stretcher of the catalogue is shorter
 * than two courses, less what they are placed within.
 */
const leastStretcher = 1.9;
/** No answer is surer where bricks are laid in bond the other way. */
const doubted = 0.3;
/** A brick on end is taken for a course of at most so many, each of which must still be this high. */
const coursesOnEnd = 4;
const leastCoursePx = 10;
/** Enough of the photo's middle to tell, in pixels of the smaller picture. */
const longestSide = 400;
/** Of a stack bond, a brick so much of a course long is one that stands. */
const mostStanding = 0.9;

/**
 * Doubt courses that may be bricks counted the other way: the joints between bricks on end repeat as
 * truly as those between courses, and only their bond tells which way they lie.
 *
 * @param found - Courses as found.
 * @param raster - The photo.
 * @param options - How they were looked for.
 * @returns The same with a warning `other-axis` where bricks lie the other way, and unsure where they
 *   are laid in a bond that reads one way alone.
 */
export function doubtAxis(
  found: Outcome<CourseFit, 'no-courses'>,
  raster: Raster,
  options: FindCoursesOptions,
): Outcome<CourseFit, 'no-courses'> {
  if (!found.ok || !mayStand(found.value)) return found;
  const { value } = found;
  const bond = bondAcross(value, raster, options);
  if (bond === null) return found;
  const cure = value.axis === 'y' ? 'measure with --axis x' : 'leave --axis out';
  const message = `bricks in ${bond} bond lie the other way: where their courses are meant, ${cure}`;
  const most = bond === 'stack' ? 1 : doubted;
  return {
    ...found,
    value: { ...value, confidence: Math.min(value.confidence, most) },
    warnings: [{ code: 'other-axis', message }, ...found.warnings],
  };
}

function mayStand({ bond, twoBonds, brick, course }: CourseFit): boolean {
  if (bond === null) return twoBonds === null;
  return bond === 'stack' && brick !== null && brick < mostStanding * course;
}

function bondAcross(
  { axis, course: standing, rectification }: CourseFit,
  raster: Raster,
  { straighten = 'full', focal }: FindCoursesOptions,
): string | null {
  const times = Math.max(1, Math.floor(standing / (coursesOnEnd * leastCoursePx)));
  if (Math.min(raster.width, raster.height) < times) return null;
  const across = findCourses(cropMiddle(raster, times), {
    axis: axis === 'y' ? 'x' : 'y',
    listed: false,
    // What is square to courses that lie level as they are does so too.
    straighten: rectification === null ? 'none' : straighten,
    ...(focal && { focal: { ...focal, px: focal.px / times } }),
  });
  if (!across.ok || across.value.confidence < leastConfidence) return null;
  const { bond, brick, course } = across.value;
  if (bond === null || brick === null) return null;
  const least = bond === 'stack' ? leastStretcher : leastLying;
  return brick < least * course ? null : bond;
}

// The middle, so that the camera still looks straight at it.
function cropMiddle(raster: Raster, times: number): Raster {
  const small = shrinkRaster(raster, times);
  const width = Math.min(small.width, longestSide);
  const height = Math.min(small.height, longestSide);
  const x = (small.width - width) >> 1;
  const y = (small.height - height) >> 1;
  return cropRaster(small, { x, y, width, height });
}
