import type { Outcome } from '../errors/outcome.js';
import { showPath } from '../errors/show-path.js';
import { type MeasuredCount, measureCount } from '../measure/measure-count.js';
import { measureCourses } from '../measure/measure-courses.js';
import { measureSpan } from '../measure/measure-span.js';
import type { Photo } from '../read/read-photo.js';
import { type FoundSidecar, readSidecar } from '../read/read-sidecar.js';
import { type AxisCopies, findCopies } from '../seam/find-copies.js';
import { inspectSeams, type SeamInspection } from '../seam/inspect-seams.js';
import type { FoundJoints } from '../surface/found-joints.js';
import type { Measurement, PerAxis } from '../surface/measurement.js';
import { countCopiesOnce } from './count-copies-once.js';
import { beginStep, type JobOptions } from './job-options.js';
import type { ReferenceOptions } from './reference-options.js';
import { trustWrap } from './trust-wrap.js';

/** A photo's measurement, and where it was kept. */
export interface FoundMeasurement {
  /** Made now, or kept from before. */
  readonly measurement: Measurement;
  /** What was kept beside the photo, or null where it was measured now. */
  readonly kept: FoundSidecar | null;
  /** The joints it rests on, or null where none were looked for, or it was kept from before. */
  readonly joints: FoundJoints | null;
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
 * @param options - Checked by the caller.
 * @returns The measurement, or why there is none.
 * @throws TextureError when the file kept beside the photo does not allow it.
 */
export async function findMeasurement(
  photo: Photo,
  options: ReferenceOptions & JobOptions,
): Promise<Outcome<FoundMeasurement, MeasureRefusal>> {
  const measured = measure(photo, options);
  if (measured === null) {
    const kept = await readSidecar(photo);
    if (kept === null) return notMeasured(photo.path);
    return { ok: true, value: { measurement: kept.measurement, kept, joints: null }, warnings: [] };
  }
  if (!measured.ok) return { ...measured, message: `${showPath(photo.path)}: ${measured.message}` };
  const { warnings } = measured;
  const { joints, ...value } = measured.value;
  if (value.method !== 'courses') {
    return { ok: true, value: { measurement: value, kept: null, joints }, warnings };
  }
  const seams = inspectSeams(photo.raster);
  const copies = findCopies(photo.raster);
  const measurement = countCopiesOnce(
    seams.y.seamless ? trustWrap(value, photo) : value,
    copies,
    photo,
  );
  return { ok: true, value: { measurement, kept: null, joints, seams, copies }, warnings };
}

function notMeasured(path: string): Outcome<never, 'not-measured'> {
  return {
    ok: false,
    code: 'not-measured',
    message: `${showPath(path)} was not measured: nothing is kept beside it, and no reference is given`,
    hint: 'say what its courses are (--course uk-metric), or give a --span and its --length',
  };
}

function measure(
  photo: Photo,
  options: ReferenceOptions & JobOptions,
): Outcome<MeasuredCount, MeasureRefusal> | null {
  const { course, courses, span, length, axis = 'y', straighten = 'none' } = options;
  if (course === undefined && span === undefined) return null;
  beginStep('measuring', options);
  if (span !== undefined && length !== undefined) {
    const [from, to] = span;
    const measured = measureSpan(photo, { from, to, length });
    return measured.ok ? { ...measured, value: { ...measured.value, joints: null } } : measured;
  }
  if (course === undefined) return null;
  const how = { axis, straighten };
  if (courses === undefined) return measureCourses(photo.raster, course, how);
  const counted = { courses, reference: course };
  return measureCount(photo.raster, span === undefined ? counted : { ...counted, span }, how);
}
