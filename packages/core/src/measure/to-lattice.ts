import type { Lattice } from '../surface/measurement.js';
import type { CourseFit } from './find-courses.js';

/**
 * Take from found courses what the later stages need: where the joints lie.
 *
 * @param fit - Courses found in a picture.
 * @returns Its lattice.
 */
export function toLattice(fit: CourseFit): Lattice {
  const { axis, course, courseOffset, brick, repeat, bond } = fit;
  return { axis, course, courseOffset, brick, repeat, bond };
}
