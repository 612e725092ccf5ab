import type { Outcome } from '../errors/outcome.js';
import { measureCount } from '../measure/measure-count.js';
import {
  measureSpans,
  type MeasureSpansOptions,
  type SpanResidual,
} from '../measure/measure-spans.js';
import type { Corners } from '../measure/rectangle/sort-corners.js';
import type { Photo } from '../read/read-photo.js';
import type { FoundJoints } from '../surface/found-joints.js';
import type { Measurement } from '../surface/measurement.js';
import { estimateScale } from './estimate-scale.js';
import { findLens } from './find-lens.js';
import type { GivenReference } from './given-reference.js';
import { type CornersRefusal, measureCorners } from './measure-corners.js';
import { measureNoted } from './measure-noted.js';
import type { ReferenceOptions } from './reference-options.js';
import { slantByEye } from './slant-by-eye.js';

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
export interface LookOptions extends Pick<ReferenceOptions, 'axis' | 'straighten' | 'focal'> {
  /** Degrees that it may be off square, either way; as much as by eye unless told. */
  readonly slant?: number;
  /** Whether all joints are listed, for a picture of them; bed joints alone unless told. */
  readonly listed?: boolean;
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
  options: LookOptions,
): Outcome<MeasuredGiven, GivenRefusal> {
  const { raster } = photo;
  const seen = seeThrough(photo, options);
  const how = { ...toLook(options), ...seen };
  switch (given.kind) {
    case 'courses':
      return measureNoted(raster, given.course, how);
    case 'count': {
      const counted = { courses: given.courses, reference: given.course };
      return measureCount(raster, given.span ? { ...counted, span: given.span } : counted, how);
    }
    case 'spans':
      return measureSpans(raster, given.spans, seen);
    case 'section':
    case 'brick': {
      const { reference } = given;
      const method = given.kind === 'section' ? 'section' : 'span';
      const spans = given.spans.map(([from, to]) => ({ from, to, length: reference.size }));
      return measureSpans(raster, spans, { reference, method, ...seen });
    }
    case 'corners':
      return measureCorners(photo, given, how);
    case 'distance':
      return estimateScale(photo, given);
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
): Pick<MeasureSpansOptions, 'slant' | 'focal'> {
  const lens = findLens(photo, focal ?? null);
  return { slant, ...(lens.ok && { focal: lens.value }) };
}
