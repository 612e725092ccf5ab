import { ownCourses } from '../../catalogue/own-courses.js';
import type { Outcome } from '../../errors/outcome.js';
import { findCourses } from '../../measure/find-courses.js';
import type { FocalLength } from '../../measure/find-focal-length.js';
import type { GivenReference, MarkedReference } from '../../measure/given/given-reference.js';
import type { CornersRefusal } from '../../measure/given/measure-corners.js';
import { measureMarked } from '../../measure/given/measure-marked.js';
import type { SpanResidual } from '../../measure/given/measure-spans.js';
import type { Corners } from '../../measure/rectangle/sort-corners.js';
import { slantByEye } from '../../measure/given/slant-by-eye.js';
import type { Photo } from '../../read/read-photo.js';
import type { FoundJoints } from '../../surface/found-joints.js';
import type { Measurement } from '../../surface/measurement.js';
import { estimateScale } from './estimate-scale.js';
import { findLens } from './find-lens.js';
import { measureCornerCourses } from './measure-corner-courses.js';
import { measureNoted } from './measure-noted.js';
import type { ReferenceOptions } from './reference-options.js';

/** A measurement, and what of the photo it rests on. */
export interface MeasuredGiven extends Measurement {
  /** The joints, where courses were looked for. */
  readonly joints?: FoundJoints | null;
  /** Standard uncertainty (k = 1) of square pixels, as a fraction, where courses leave that open. */
  readonly aspect?: number;
  /** The lines, each held against the others. */
  readonly spans?: readonly SpanResidual[] | null;
  /** The corners of a rectangle, in order. */
  readonly corners?: Corners | null;
}

/** How a photo is looked at. */
export interface LookOptions extends Pick<
  ReferenceOptions,
  'axis' | 'straighten' | 'focal' | 'references'
> {
  /** Degrees that it may be off square, either way; as much as by eye unless told. */
  readonly slant?: number;
  /** Whether all joints are listed, for a picture of them; bed joints alone unless told. */
  readonly listed?: boolean;
}

/** Why a photo could not be measured by what is known of it. */
export type GivenRefusal = CornersRefusal | 'no-courses' | 'no-focal-length';

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
  options: LookOptions,
): Outcome<MeasuredGiven, GivenRefusal> {
  const own = ownCourses(options.references);
  const how = { ...toLook(options), ...seeThrough(photo, options), own };
  const byMarks = (marked: MarkedReference): Outcome<MeasuredGiven, GivenRefusal> =>
    measureMarked(photo, marked, { ...how, look: () => findCourses(photo.raster, how) });
  switch (given.kind) {
    case 'courses':
      return measureNoted(photo.raster, given.course, how);
    case 'distance':
      return estimateScale(photo, given);
    case 'corners': {
      const { known, ...marked } = given;
      if (known.kind === 'courses') return measureCornerCourses(photo, { ...marked, known }, how);
      return byMarks({ ...marked, known });
    }
    case 'count':
    case 'spans':
    case 'section':
    case 'brick':
      return byMarks(given);
  }
}

function toLook({
  axis = 'y',
  straighten = 'full',
  listed = false,
}: LookOptions): Required<Pick<LookOptions, 'axis' | 'straighten' | 'listed'>> {
  return { axis, straighten, listed };
}

function seeThrough(
  photo: Photo,
  { focal, slant = slantByEye }: LookOptions,
): { readonly slant: number; readonly focal?: FocalLength } {
  const lens = findLens(photo, focal ?? null);
  return { slant, ...(lens.ok && { focal: lens.value }) };
}
