import type { CourseReference } from '../catalogue/course-reference.js';
import type { Straighten } from '../measure/slant/judge-stand.js';
import type { CourseAxis } from '../surface/measurement.js';
import { outOfRange } from '../errors/out-of-range.js';
import type { Point } from '../units/parse-point.js';
import type { RealMm } from '../units/units.js';

/**
 * What is known of the real thing in a photo. With none of it, the surface file beside the photo
 * is used.
 */
export interface ReferenceOptions {
  /** What the courses are. */
  readonly course?: CourseReference;
  /** How many were counted, over `span` where given, else over the photo's height; needs `course`. */
  readonly courses?: number;
  /** Which way courses are counted: `y` where they lie level (unless told), `x` where they stand upright. */
  readonly axis?: CourseAxis;
  /** How far the photo may be straightened. */
  readonly straighten?: Straighten;
  /** Two points of the upright photo in pixels, origin top left; needs `length` or `courses`. */
  readonly span?: readonly [Point, Point];
  /** The real length of `span`. */
  readonly length?: RealMm;
}

/**
 * Refuse options that name no one reference, before any work.
 *
 * @param options - As the caller gave them.
 * @throws RangeError when something is missing, or two things are said at once.
 */
export function checkReference(options: ReferenceOptions): void {
  const { course, courses, span, length } = options;
  checkCount(courses, course);
  if (length !== undefined && span === undefined) {
    throw outOfRange('the two points that length lies between', 'span', span);
  }
  if (span === undefined) return;
  if (length === undefined && courses === undefined) {
    throw outOfRange(
      'the real length of the span (or the courses counted on it)',
      'length',
      length,
    );
  }
  if (length !== undefined && course !== undefined) {
    throw outOfRange('no course beside a span of known length', 'course', course.id);
  }
}

/**
 * Tell whether anything is known of the real thing.
 *
 * @param options - As the caller gave them.
 * @returns False where only what was kept beside the photo can help.
 */
export function namesReference(options: ReferenceOptions): boolean {
  const { course, span } = options;
  return course !== undefined || span !== undefined;
}

function checkCount(courses: number | undefined, course: CourseReference | undefined): void {
  if (courses === undefined) return;
  if (!(Number.isInteger(courses) && courses >= 1)) {
    throw outOfRange('a whole number of 1 or more', 'courses', courses);
  }
  if (course === undefined) throw outOfRange('what the counted courses are', 'course', course);
}
