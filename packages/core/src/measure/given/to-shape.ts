import type { Lattice } from '../../surface/measurement.js';
import type { CoursedShape } from './judge-formats.js';

/** How well a brick's length is known (k = 1): perpends wander more than bed joints. */
const ofBrick = 0.005;

/**
 * Take from a lattice what its bricks' shape is judged by.
 *
 * @param lattice - Of the level picture.
 * @param uncertainty - Standard uncertainty (k = 1) of its course, as a fraction.
 * @returns The shape, or null where no brick was found.
 */
export function toShape(lattice: Lattice, uncertainty: number): CoursedShape | null {
  const { brick, course, bond } = lattice;
  if (brick === null || bond === null) return null;
  return { courses: brick / course, uncertainty: Math.hypot(uncertainty, ofBrick), bond };
}
