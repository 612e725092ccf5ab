import type { CourseReference } from '../../catalogue/course-reference.js';
import type { Lattice } from '../../surface/measurement.js';

const apart = (brick: number, expected: number): number => Math.abs(brick / expected - 1);

/**
 * Say which faces of its bricks a wall shows: stretcher bond of short bricks and header bond have the
 * same joints, and only the format tells them apart.
 *
 * @param lattice - Joints as found.
 * @param reference - The format.
 * @returns The same, its bond named anew where it is one of those two.
 */
export function nameFaces(lattice: Lattice, reference: CourseReference): Lattice {
  const { brick, size } = reference;
  const { bond, course } = lattice;
  if (lattice.brick === null || brick === null || (bond !== 'header' && bond !== 'stretcher')) {
    return lattice;
  }
  const courses = lattice.brick / course;
  const header = brick.header === null ? Infinity : apart(courses, brick.header / size);
  return {
    ...lattice,
    bond: header < apart(courses, brick.stretcher / size) ? 'header' : 'stretcher',
  };
}
