import { outOfRange } from '../errors/out-of-range.js';
import { type RealMm, realMm } from '../units/units.js';
import type { Bond, BondCourse } from './bonds/bond.js';

/** A brick's faces and course, each with one joint. */
export interface BondFormat {
  /** The long face. */
  readonly stretcher: RealMm;
  /** The short face. */
  readonly header: RealMm;
  /** From bed joint to bed joint. */
  readonly course: RealMm;
}

/** The smallest rectangle of a bond that tiles. */
export interface BondRepeat {
  /** Along the course. */
  readonly x: RealMm;
  /** Down the wall, a whole number of courses. */
  readonly y: RealMm;
  /**
   * Whether it tiles with the faces as given. Where courses of stretchers meet courses of headers
   * and a stretcher is not two headers, it does not: the headers rule, and the stretchers' joints
   * are opened to suit.
   */
  readonly exact: boolean;
}

/**
 * Work out a bond's repeat.
 *
 * @param bond - The pattern.
 * @param format - The bricks it is laid of.
 * @returns Its repeat in real millimetres.
 */
export function bondRepeat(bond: Bond, format: BondFormat): BondRepeat {
  const { stretcher, header, course } = format;
  if (!(stretcher > header))
    throw outOfRange('a stretcher longer than the header', 'format', stretcher);
  const y = realMm(course * bond.courses.length);
  const [first] = bond.courses;
  if (bond.courses.every((other) => isSameRun(first, other))) {
    const x = first.run.reduce((sum, face) => sum + format[face], 0);
    return { x: realMm(x), y, exact: true };
  }
  const headers = bond.courses
    .map(({ run }) => run.reduce((sum, face) => sum + (face === 'stretcher' ? 2 : 1), 0))
    .reduce(leastCommonMultiple);
  const exact = Math.abs(stretcher / (2 * header) - 1) < 1e-6;
  return { x: realMm(header * headers), y, exact };
}

function isSameRun(a: BondCourse, b: BondCourse): boolean {
  return a.run.join() === b.run.join();
}

function leastCommonMultiple(a: number, b: number): number {
  let [larger, smaller] = [a, b];
  while (smaller > 0) [larger, smaller] = [smaller, larger % smaller];
  return (a * b) / larger;
}
