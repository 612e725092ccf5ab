import type { Outcome } from '../errors/outcome.js';
import { showPath } from '../errors/show-path.js';
import { measureCount } from '../measure/measure-count.js';
import { measureCourses } from '../measure/measure-courses.js';
import { measureSpans, type SpanResidual } from '../measure/measure-spans.js';
import type { Photo } from '../read/read-photo.js';
import { type FoundSidecar, readSidecar } from '../read/read-sidecar.js';
import { type AxisCopies, findCopies } from '../seam/find-copies.js';
import { inspectSeams, type SeamInspection } from '../seam/inspect-seams.js';
import type { FoundJoints } from '../surface/found-joints.js';
import type { Measurement, PerAxis } from '../surface/measurement.js';
import { countCopiesOnce } from './count-copies-once.js';
import { isFinished } from './is-finished.js';
import { beginStep, type JobOptions } from './job-options.js';
import { checkReference, type GivenReference, type ReferenceOptions } from './reference-options.js';
import { trustWrap } from './trust-wrap.js';

/** A photo's measurement, and where it was kept. */
export interface FoundMeasurement {
  /** Made now, or kept from before. */
  readonly measurement: Measurement;
  /** What was kept beside the photo, or null where it was measured now. */
  readonly kept: FoundSidecar | null;
  /** The joints it rests on, or null where none were looked for, or it was kept from before. */
  readonly joints: FoundJoints | null;
  /** The lines it rests on, each held against the others, or null where it rests on none. */
  readonly spans: readonly SpanResidual[] | null;
  /** How the photo meets itself, where that was asked on the way. */
  readonly seams?: SeamInspection;
  /** What of it is a copy, where that was asked on the way. */
  readonly copies?: PerAxis<AxisCopies>;
}

/** Why a photo could not be measured. */
export type MeasureRefusal = 'no-courses' | 'not-measured' | 'outside-photo';

/**
 * Find how big a photo is: by what the caller knows, else by what was kept beside it.
 *
 * @param photo - As read.
 * @param options - What is known.
 * @returns The measurement, or why there is none.
 * @throws RangeError when the options make no sense together.
 * @throws TextureError when the file kept beside the photo does not allow it.
 */
export async function findMeasurement(
  photo: Photo,
  options: ReferenceOptions & JobOptions,
): Promise<Outcome<FoundMeasurement, MeasureRefusal>> {
  const given = checkReference(options);
  if (given.kind === 'kept') {
    const kept = await readSidecar(photo);
    if (kept === null) return notMeasured(photo.path);
    const { measurement } = kept;
    return { ok: true, value: { measurement, kept, joints: null, spans: null }, warnings: [] };
  }
  beginStep('measuring', options);
  const measured = measure(photo, given, options);
  if (!measured.ok) return { ...measured, message: `${showPath(photo.path)}: ${measured.message}` };
  const { warnings } = measured;
  const { joints = null, spans = null, ...value } = measured.value;
  const found = { kept: null, joints, spans };
  if (value.method !== 'courses')
    return { ok: true, value: { measurement: value, ...found }, warnings };
  const seams = inspectSeams(photo.raster);
  if (value.rectification !== null) {
    if (isFinished(photo, seams, value)) {
      return findMeasurement(photo, { ...options, straighten: 'none' });
    }
    return { ok: true, value: { measurement: value, ...found }, warnings };
  }
  const copies = findCopies(photo.raster);
  const wraps = seams[value.lattice?.axis ?? 'y'].seamless;
  const measurement = countCopiesOnce(wraps ? trustWrap(value, photo) : value, copies, photo);
  return { ok: true, value: { measurement, ...found, seams, copies }, warnings };
}

function notMeasured(path: string): Outcome<never, 'not-measured'> {
  return {
    ok: false,
    code: 'not-measured',
    message: `${showPath(path)} was not measured: nothing is kept beside it, and no reference is given`,
    hint: 'say what its courses are (--course uk-metric), or give a --span and its --length',
  };
}

interface Measured extends Measurement {
  readonly joints?: FoundJoints | null;
  readonly spans?: readonly SpanResidual[];
}

// How far off square a photo may be that somebody took for square by eye, in degrees either way
// (common practice, no source).
const slantByEye = 5;

function measure(
  { raster }: Photo,
  given: Exclude<GivenReference, { kind: 'kept' }>,
  { axis = 'y', straighten = 'full' }: ReferenceOptions,
): Outcome<Measured, MeasureRefusal> {
  const how = { axis, straighten };
  switch (given.kind) {
    case 'courses':
      return measureCourses(raster, given.course, how);
    case 'count': {
      const counted = { courses: given.courses, reference: given.course };
      return measureCount(raster, given.span ? { ...counted, span: given.span } : counted, how);
    }
    case 'spans':
      return measureSpans(raster, given.spans, { slant: slantByEye });
  }
}
