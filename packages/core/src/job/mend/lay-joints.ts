import type { Joints } from '../../seam/mend/see-joints.js';
import type { Lattice, PerAxis } from '../../surface/measurement.js';

/** A piece of a level photo, brought to another resolution. */
export interface PictureOfLevel {
  /** Where it begins, in pixels of the level photo. */
  readonly from: PerAxis<number>;
  /** Its pixels to one of those. */
  readonly factor: PerAxis<number>;
}

/**
 * Say where joints lie in a piece of a level photo.
 *
 * @param lattice - In pixels of the level photo.
 * @param picture - The piece.
 * @returns In pixels of the piece.
 */
export function layJoints(lattice: Lattice, picture: PictureOfLevel): Joints {
  const { axis, course, courseOffset, brick } = lattice;
  const { from, factor } = picture;
  return {
    axis,
    course: course * factor[axis],
    offset: (courseOffset - from[axis]) * factor[axis],
    brick: brick && brick * factor[axis === 'y' ? 'x' : 'y'],
  };
}
