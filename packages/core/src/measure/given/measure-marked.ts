import type { CourseReference } from '../../catalogue/course-reference.js';
import type { Outcome } from '../../errors/outcome.js';
import type { FoundJoints } from '../../surface/found-joints.js';
import type { CourseAxis, Measurement } from '../../surface/measurement.js';
import type { Size } from '../../units/parse-size.js';
import type { CourseFit } from '../find-courses.js';
import type { FocalLength } from '../find-focal-length.js';
import type { MarkedReference } from './given-reference.js';
import { type CornersRefusal, measureCorners } from './measure-corners.js';
import { weighCount } from './measure-count.js';
import { measureSpans, type SpanResidual } from './measure-spans.js';
import type { Corners } from '../rectangle/sort-corners.js';
import type { Straighten } from '../slant/judge-stand.js';

/** How a photo is looked at in which places were marked. */
export interface MeasureMarkedOptions {
  /** Degrees that it may be off square, either way. */
  readonly slant: number;
  /** Focal length, where it is known. */
  readonly focal?: FocalLength;
  /** Which way courses are counted; `y` unless told. */
  readonly axis?: CourseAxis;
  /** How far the photo may be straightened for the courses it shows; `full` unless told. */
  readonly straighten?: Straighten;
  /** References beside the catalogue's that courses could be as well; none unless told. */
  readonly own?: readonly CourseReference[];
  /** Tells which courses the photo shows, looked for with the options above; asked where some were counted. */
  readonly look: () => Outcome<CourseFit, 'no-courses'>;
}

/** A measurement by places that were marked, and what it rests on. */
export interface MeasuredMarked extends Measurement {
  /** The joints that bear a count out. */
  readonly joints?: FoundJoints | null;
  /** The lines, each held against the others. */
  readonly spans?: readonly SpanResidual[];
  /** The corners of a rectangle, in order. */
  readonly corners?: Corners;
}

/**
 * Measure a photo by places that somebody marked on it. Nothing but the courses it shows, for which
 * `look` is asked, has to be seen: whoever marks need not hold the picture.
 *
 * @param size - The photo, upright.
 * @param given - What was marked, and what is known of it.
 * @param options - How the photo is looked at.
 * @returns The measurement, or why the places will not do.
 * @throws RangeError when what is given makes no sense: see {@link measureSpans}, {@link measureCount}
 *   and {@link measureRectangle}.
 */
export function measureMarked(
  size: Size<number>,
  given: MarkedReference,
  options: MeasureMarkedOptions,
): Outcome<MeasuredMarked, CornersRefusal> {
  const { slant, focal } = options;
  const seen = focal === undefined ? { slant } : { slant, focal };
  switch (given.kind) {
    case 'count': {
      const { course: reference, courses, span } = given;
      const counted = span === null ? { courses, reference } : { courses, reference, span };
      return weighCount(size, counted, options);
    }
    case 'spans':
      return measureSpans(size, given.spans, seen);
    case 'section':
    case 'brick': {
      const { reference } = given;
      const method = given.kind === 'section' ? 'section' : 'span';
      const spans = given.spans.map(([from, to]) => ({ from, to, length: reference.size }));
      return measureSpans(size, spans, { reference, method, ...seen });
    }
    case 'corners':
      return measureCorners(size, given, focal);
  }
}
