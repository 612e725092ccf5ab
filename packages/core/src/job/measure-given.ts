import type { Outcome } from '../errors/outcome.js';
import { findFocalLength } from '../measure/find-focal-length.js';
import type { FindCoursesOptions } from '../measure/find-courses.js';
import { measureCount } from '../measure/measure-count.js';
import { measureSpans, type SpanResidual } from '../measure/measure-spans.js';
import type { Corners } from '../measure/rectangle/sort-corners.js';
import type { Photo } from '../read/read-photo.js';
import type { FoundJoints } from '../surface/found-joints.js';
import type { CourseAxis, Measurement } from '../surface/measurement.js';
import { estimateScale } from './estimate-scale.js';
import type { GivenReference } from './given-reference.js';
import { type CornersRefusal, measureCorners } from './measure-corners.js';
import { measureNoted } from './measure-noted.js';
import type { ReferenceOptions } from './reference-options.js';
import { slantByEye } from './slant-by-eye.js';

/** A measurement, and what of the photo it rests on. */
export interface MeasuredGiven extends Measurement {
  /** The joints, where courses were looked for. */
  readonly joints?: FoundJoints | null;
  /** The lines, each held against the others. */
  readonly spans?: readonly SpanResidual[] | null;
  /** The corners of a rectangle, in order. */
  readonly corners?: Corners | null;
}

/** Why a photo could not be measured by what is known of it. */
export type GivenRefusal = CornersRefusal | 'no-focal-length';

/**
 * Measure a photo by the one reference that is given.
 *
 * @param photo - As read.
 * @param given - The reference.
 * @param options - How courses lie, and how far the photo may be straightened.
 * @returns The measurement, or why there is none.
 */
export function measureGiven(
  photo: Photo,
  given: Exclude<GivenReference, { kind: 'kept' }>,
  options: Pick<ReferenceOptions, 'axis' | 'straighten'>,
): Outcome<MeasuredGiven, GivenRefusal> {
  const { raster } = photo;
  const how = { ...lookFor(photo, options), slant: slantByEye };
  switch (given.kind) {
    case 'courses':
      return measureNoted(raster, given.course, how);
    case 'count': {
      const counted = { courses: given.courses, reference: given.course };
      return measureCount(raster, given.span ? { ...counted, span: given.span } : counted, how);
    }
    case 'spans':
      return measureSpans(raster, given.spans, { slant: slantByEye });
    case 'section':
    case 'brick': {
      const { reference } = given;
      const method = given.kind === 'section' ? 'section' : 'span';
      const spans = given.spans.map(([from, to]) => ({ from, to, length: reference.size }));
      return measureSpans(raster, spans, { reference, method, slant: slantByEye });
    }
    case 'corners':
      return measureCorners(photo, given, how.axis);
    case 'distance':
      return estimateScale(photo, given);
  }
}

function lookFor(
  { raster, exif }: Photo,
  { axis = 'y', straighten = 'full' }: Pick<ReferenceOptions, 'axis' | 'straighten'>,
): FindCoursesOptions & { readonly axis: CourseAxis } {
  const focal = findFocalLength(raster, exif);
  return { axis, straighten, ...(focal.ok && { focal: focal.value }) };
}
