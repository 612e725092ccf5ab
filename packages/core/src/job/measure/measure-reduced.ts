import type { Outcome } from '../../errors/outcome.js';
import { lookLimits } from '../../measure/look-limits.js';
import type { Homography } from '../../numeric/homography.js';
import { multiplyHomographies } from '../../numeric/multiply-homographies.js';
import type { Raster } from '../../raster/raster.js';
import type { OpenedPhoto } from '../../read/open-photo.js';
import type { Photo } from '../../read/read-photo.js';
import { type AxisCopies, findCopies } from '../../seam/copies/find-copies.js';
import type { Lattice, Measurement, PerAxis, Rectification } from '../../surface/measurement.js';
import { px } from '../../units/units.js';
import { findMeasurement, type FoundMeasurement, type MeasureRefusal } from './find-measurement.js';
import type { JobOptions } from '../job-options.js';
import type { LookOptions } from './measure-given.js';
import { checkReference, type ReferenceOptions } from './reference-options.js';

/** A measurement, and what of its photo is a copy. */
export type WithCopies = FoundMeasurement & Required<Pick<FoundMeasurement, 'copies'>>;

/** A photo measured, and the photo as it was read last. */
export interface MeasuredReduced {
  /** Reduced or whole. */
  readonly photo: Photo;
  /** In pixels of the whole photo, whichever was looked at, with its copies. */
  readonly found: Outcome<WithCopies, MeasureRefusal>;
}

type Options = ReferenceOptions & JobOptions & Pick<LookOptions, 'listed'>;

/**
 * Measure a photo that was made smaller as it was read; where that leaves doubt, measure all of it.
 *
 * @param opened - The photo.
 * @param options - What is known of it.
 * @returns The measurement, or why there is none.
 * @throws RangeError when the options make no sense together.
 * @throws TextureError when a file does not allow it.
 */
export async function measureReduced(
  opened: OpenedPhoto,
  options: Options,
): Promise<MeasuredReduced> {
  const { look } = opened;
  const { photo, found, times } = await measureLook(opened, options);
  const shown = times === null ? photo : look;
  if (!found.ok) return { photo: shown, found };
  const value = withCopies(found.value, photo.raster);
  return {
    photo: shown,
    found: { ...found, value: times === null ? value : enlarge(value, times) },
  };
}

/** A photo measured as it was looked at. */
export interface MeasuredLook {
  /** It, as large as its raster. */
  readonly photo: Photo;
  /** In pixels of that. */
  readonly found: Outcome<FoundMeasurement, MeasureRefusal>;
  /** How many times larger the whole photo is, or null where this is all of it. */
  readonly times: PerAxis<number> | null;
}

/**
 * The same, told in pixels of the photo as it was looked at, with the joints that were found there.
 *
 * @param opened - The photo.
 * @param options - What is known of it.
 * @returns The measurement, or why there is none.
 * @throws RangeError when the options make no sense together.
 * @throws TextureError when a file does not allow it.
 */
export async function measureLook(opened: OpenedPhoto, options: Options): Promise<MeasuredLook> {
  const { look } = opened;
  const { raster, step } = look;
  if (step === 1) return measureAll(look, options);
  // What was kept, and every other reference, is of all of the photo.
  if (checkReference(options).kind !== 'courses') return measureAll(await opened.whole(), options);
  const { width, height } = raster;
  const photo = { ...look, step: 1, width, height };
  const found = await findMeasurement(photo, options);
  if (!found.ok || !isClear(found)) return measureAll(await opened.whole(), options);
  return { photo, found, times: { x: look.width / width, y: look.height / height } };
}

async function measureAll(photo: Photo, options: Options): Promise<MeasuredLook> {
  return { photo, found: await findMeasurement(photo, options), times: null };
}

function withCopies(found: FoundMeasurement, raster: Raster): WithCopies {
  return { ...found, copies: found.copies ?? findCopies(raster) };
}

type Found = Extract<Outcome<FoundMeasurement, never>, { readonly ok: true }>;

function isClear({ value, warnings }: Found): boolean {
  const { confidence, lattice } = value.measurement;
  return (
    confidence > lookLimits.enough &&
    lattice !== null &&
    lattice.course >= lookLimits.leastCourse &&
    // It tells of places in the photo.
    warnings.every(({ code }) => code !== 'two-works')
  );
}

function enlarge(found: WithCopies, step: PerAxis<number>): WithCopies {
  const { measurement, copies } = found;
  const times = ({ period, mirror }: AxisCopies, by: number): AxisCopies => ({
    period: period && period * by,
    mirror: mirror && mirror * by,
  });
  return {
    ...found,
    measurement: enlargeMeasurement(measurement, step),
    // They are drawn over a whole photo only.
    joints: null,
    copies: { x: times(copies.x, step.x), y: times(copies.y, step.y) },
  };
}

/**
 * Tell a measurement in pixels of a larger picture of the same.
 *
 * @param measurement - Of the smaller.
 * @param step - How many times larger it is.
 * @returns The same of the larger.
 */
export function enlargeMeasurement(measurement: Measurement, step: PerAxis<number>): Measurement {
  const { mmPerPx, rectification, lattice } = measurement;
  return {
    ...measurement,
    mmPerPx: { x: mmPerPx.x / step.x, y: mmPerPx.y / step.y },
    rectification: rectification && enlargeRectification(rectification, step),
    lattice: lattice && enlargeLattice(lattice, step),
  };
}

// What a lens bends is counted in half diagonals, and those are longer by as much.
function enlargeRectification(
  { matrix, lens }: Rectification,
  step: PerAxis<number>,
): Rectification {
  const larger: Homography = [step.x, 0, 0, 0, step.y, 0, 0, 0, 1];
  const smaller: Homography = [1 / step.x, 0, 0, 0, 1 / step.y, 0, 0, 0, 1];
  return { matrix: multiplyHomographies(larger, multiplyHomographies(matrix, smaller)), lens };
}

function enlargeLattice(lattice: Lattice, step: PerAxis<number>): Lattice {
  const { axis, course, courseOffset, brick, repeat } = lattice;
  const along = step[axis];
  const across = step[axis === 'y' ? 'x' : 'y'];
  return {
    ...lattice,
    course: px(course * along),
    courseOffset: courseOffset * along,
    brick: brick && px(brick * across),
    repeat: { x: repeat.x && px(repeat.x * step.x), y: repeat.y && px(repeat.y * step.y) },
  };
}
