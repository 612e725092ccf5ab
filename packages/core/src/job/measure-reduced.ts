import type { Outcome } from '../errors/outcome.js';
import { lookLimits } from '../measure/look-limits.js';
import type { Homography } from '../numeric/homography.js';
import { multiplyHomographies } from '../numeric/multiply-homographies.js';
import { type Photo, readPhoto } from '../read/read-photo.js';
import { type AxisCopies, findCopies } from '../seam/find-copies.js';
import type { Lattice, Measurement, PerAxis, Rectification } from '../surface/measurement.js';
import { px } from '../units/units.js';
import { findMeasurement, type FoundMeasurement, type MeasureRefusal } from './find-measurement.js';
import type { JobOptions } from './job-options.js';
import type { LookOptions } from './measure-given.js';
import type { ReferenceOptions } from './reference-options.js';

/** A photo measured, and the photo as it was read last. */
export interface MeasuredReduced {
  /** Reduced or whole. */
  readonly photo: Photo;
  /** In pixels of the whole photo, whichever was looked at, with its copies. */
  readonly found: Outcome<
    FoundMeasurement & Required<Pick<FoundMeasurement, 'copies'>>,
    MeasureRefusal
  >;
}

/**
 * Measure a photo that was made smaller as it was read; where that leaves doubt, read all of it and
 * measure that.
 *
 * @param photo - As read.
 * @param options - What is known of it.
 * @returns The measurement, or why there is none.
 * @throws RangeError when the options make no sense together.
 * @throws TextureError when a file does not allow it.
 */
export async function measureReduced(
  photo: Photo,
  options: ReferenceOptions & JobOptions & Pick<LookOptions, 'listed'>,
): Promise<MeasuredReduced> {
  const { raster, step } = photo;
  const { width, height } = raster;
  const found = await findMeasurement({ ...photo, step: 1, width, height }, options);
  if (step > 1 && !(found.ok && isClear(found))) {
    return measureReduced(await readPhoto(photo.path), options);
  }
  if (!found.ok) return { photo, found };
  const { copies = findCopies(raster) } = found.value;
  const value = { ...found.value, copies };
  return {
    photo,
    found: {
      ...found,
      value:
        step > 1 ? enlarge(value, { x: photo.width / width, y: photo.height / height }) : value,
    },
  };
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

function enlarge<Value extends FoundMeasurement & { readonly copies: PerAxis<AxisCopies> }>(
  found: Value,
  step: PerAxis<number>,
): Value {
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

function enlargeMeasurement(measurement: Measurement, step: PerAxis<number>): Measurement {
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
