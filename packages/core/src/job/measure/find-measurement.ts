import { outOfRange } from '../../errors/out-of-range.js';
import type { Outcome } from '../../errors/outcome.js';
import { showPath } from '../../errors/show-path.js';
import { TextureError } from '../../errors/texture-error.js';
import type { Warning } from '../../errors/warning.js';
import type { SpanResidual } from '../../measure/given/measure-spans.js';
import type { Corners } from '../../measure/rectangle/sort-corners.js';
import type { Photo } from '../../read/read-photo.js';
import { type FoundSidecar, readSidecar } from '../../read/read-sidecar.js';
import { type AxisCopies, findCopies } from '../../seam/copies/find-copies.js';
import { type SeamInspection, seamsOf } from '../../seam/inspect/inspect-seams.js';
import type { FoundJoints } from '../../surface/found-joints.js';
import type { Measurement, PerAxis } from '../../surface/measurement.js';
import { countCopiesOnce } from './count-copies-once.js';
import { checkEstimate } from './check-estimate.js';
import { isFinished } from './is-finished.js';
import { beginStep, type JobOptions } from '../job-options.js';
import type { GivenReference } from '../../measure/given/given-reference.js';
import { leaveAskew } from './leave-askew.js';
import {
  type GivenRefusal,
  type LookOptions,
  type MeasuredGiven,
  measureGiven,
} from './measure-given.js';
import { checkReference, type ReferenceOptions } from './reference-options.js';
import { trustWrap } from './trust-wrap.js';

/** A photo's measurement, and where it was kept. */
export interface FoundMeasurement {
  /** Made now, or kept from before. */
  readonly measurement: Measurement;
  /** What was kept beside the photo, or null where it was measured now. */
  readonly kept: FoundSidecar | null;
  /** The joints it rests on, or null where none were looked for, or it was kept from before. */
  readonly joints: FoundJoints | null;
  /** Standard uncertainty (k = 1) of square pixels, as a fraction, before bricks had a say in it. */
  readonly aspect?: number;
  /** The lines it rests on, each held against the others, or null where it rests on none. */
  readonly spans: readonly SpanResidual[] | null;
  /** The corners it rests on, in order, or null where it rests on none. */
  readonly corners: Corners | null;
  /** How the photo meets itself, where that was asked on the way. */
  readonly seams?: SeamInspection;
  /** What of it is a copy, where that was asked on the way. */
  readonly copies?: PerAxis<AxisCopies>;
}

/** Why a photo could not be measured. */
export type MeasureRefusal = GivenRefusal | 'not-measured';

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
  options: ReferenceOptions & JobOptions & Pick<LookOptions, 'slant' | 'listed'>,
): Promise<Outcome<FoundMeasurement, MeasureRefusal>> {
  const given = checkReference(options);
  const kept = await readKept(photo, given);
  if (kept !== null) return useKept(kept, photo, options);
  if (given.kind === 'kept') return notMeasured(photo.path);
  beginStep('measuring', options);
  const measured = measureGiven(photo, given, options);
  if (!measured.ok) return { ...measured, message: `${showPath(photo.path)}: ${measured.message}` };
  const checked = given.kind === 'distance' ? measured : heedDistance(measured, photo, options);
  return checked.value.method === 'courses'
    ? settle(photo, checked, options)
    : { ...checked, value: toFound(checked.value) };
}

type Measured<Value> = Extract<Outcome<Value, never>, { readonly ok: true }>;

function heedDistance<Value extends Measurement>(
  { value, warnings }: Measured<Value>,
  photo: Photo,
  options: ReferenceOptions,
): Measured<Value> {
  const check = checkEstimate(value, photo, options);
  const confidence = Math.min(value.confidence, check.mostConfidence);
  return {
    ok: true,
    value: { ...value, confidence },
    warnings: [...warnings, ...check.warnings],
  };
}

function toFound(value: MeasuredGiven): FoundMeasurement {
  const { joints = null, aspect = 0, spans = null, corners = null, ...measurement } = value;
  return { measurement, kept: null, joints, aspect, spans, corners };
}

// What a photo's own ends and copies say of the courses that were found in it.
async function settle(
  photo: Photo,
  { value, warnings }: Measured<MeasuredGiven>,
  options: ReferenceOptions & JobOptions,
): Promise<Outcome<FoundMeasurement, MeasureRefusal>> {
  const found = toFound(value);
  const seams = seamsOf(photo.raster);
  if (value.rectification !== null) {
    return isFinished(photo, seams, value)
      ? findMeasurement(photo, { ...options, straighten: 'none', slant: 0 })
      : { ok: true, value: found, warnings };
  }
  const copies = findCopies(photo.raster);
  const wraps = seams[value.lattice?.axis ?? 'y'].seamless;
  const { measurement: courses } = found;
  const measurement = countCopiesOnce(wraps ? asWrapped(courses, photo) : courses, copies, photo);
  return { ok: true, value: { ...found, measurement, seams, copies }, warnings };
}

// Pixels are as large as courses are by their wrap.
function asWrapped(measurement: Measurement, photo: Photo): Measurement {
  const { lattice, mmPerPx } = measurement;
  if (lattice === null) return measurement;
  const wrapped = trustWrap(lattice, photo);
  const off = wrapped.course / lattice.course;
  return { ...measurement, mmPerPx: { x: mmPerPx.x / off, y: mmPerPx.y / off }, lattice: wrapped };
}

// What was kept is better than an estimate, unless it is one, or of another picture.
async function readKept(photo: Photo, given: GivenReference): Promise<FoundSidecar | null> {
  if (given.kind === 'kept') return readSidecar(photo);
  if (given.kind !== 'distance') return null;
  try {
    const kept = await readSidecar(photo);
    return kept?.measurement.method === 'distance' ? null : kept;
  } catch (error) {
    if (error instanceof TextureError && error.code === 'stale-sidecar') return null;
    throw error;
  }
}

function useKept(
  kept: FoundSidecar,
  photo: Photo,
  options: ReferenceOptions,
): Outcome<FoundMeasurement, never> {
  if (options.axis !== undefined) {
    const expected = `no axis beside what is kept in ${showPath(kept.path)}`;
    throw outOfRange(expected, 'axis', options.axis);
  }
  const left = leaveAskew(kept.measurement, photo, options.straighten ?? 'full');
  const told: Warning[] =
    options.distance === undefined
      ? []
      : [
          {
            code: 'estimate',
            message: `${showPath(photo.path)} was measured better before: what is kept beside it is used, and the distance only checks it`,
          },
        ];
  const { value: measurement, warnings } = heedDistance(
    { ok: true, value: left.measurement, warnings: [...told, ...left.warnings] },
    photo,
    options,
  );
  return {
    ok: true,
    value: { measurement, kept, joints: null, spans: null, corners: null },
    warnings,
  };
}

function notMeasured(path: string): Outcome<never, 'not-measured'> {
  return {
    ok: false,
    code: 'not-measured',
    message: `${showPath(path)} was not measured: nothing is kept beside it, and no reference is given`,
    hint: 'say what its courses are (--course uk-metric), or give a --span and its --length',
  };
}
