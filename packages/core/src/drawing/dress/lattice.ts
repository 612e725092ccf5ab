import { type Box, boxAround, cornersOf } from '../geometry/box.js';
import { compose, invert, type Matrix } from '../../numeric/matrix.js';

/** The dots of a surface on paper: courses lie along their first axis. */
export interface Lattice {
  /** From dots to millimetres of paper. */
  readonly matrix: Matrix;
  /** How far it is turned on paper, clockwise in degrees, over -180 to 180. */
  readonly turned: number;
}

/** Where dots begin, and how large they are. */
export interface LatticeOptions {
  /** Millimetres of paper at which a course begins. */
  readonly datum: { readonly x: number; readonly y: number };
  /** Millimetres to a dot. */
  readonly dot: number;
}

// Less than this over a metre is nothing.
const nearlyTurned = 1e-7;

/**
 * Lay a surface's dots for an outline. Their size on paper is the same whatever an outline's transform
 * stretches or leans; they turn with it, about the datum, so that what is turned alike runs on from
 * one to the next. What is mirrored is not turned by that.
 *
 * @param matrix - From the outline's own user units to millimetres of paper; it has an inverse.
 * @param options - Where the dots begin, and how large they are.
 * @returns The dots.
 */
export function layLattice(matrix: Matrix, options: LatticeOptions): Lattice {
  const { datum, dot } = options;
  const angle = turnOf(matrix);
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)].map(steady);
  // Whole dots from the page's corner, so that a picture's own lie on the printer's.
  const [x, y] = [datum.x, datum.y].map((mm) => Math.round(mm / dot) * dot);
  const [c, s] = [(cos ?? 1) * dot, (sin ?? 0) * dot];
  return { matrix: [c, s, -s, c, x ?? 0, y ?? 0], turned: (angle * 180) / Math.PI };
}

function steady(value: number): number {
  const whole = Math.round(value);
  return Math.abs(value - whole) < 1e-12 ? whole : value;
}

// Which way the outline's own x axis goes. Of one that is mirrored, two turns will do: about the one
// axis and the other, and the smaller is meant.
function turnOf([a, b, c, d]: Matrix): number {
  const along = snap(Math.atan2(b, a));
  if (a * d - b * c > 0) return along;
  const against = snap(Math.atan2(-b, -a));
  return Math.abs(against) < Math.abs(along) ? against : along;
}

function snap(angle: number): number {
  const quarter = Math.PI / 2;
  const whole = Math.round(angle / quarter) * quarter;
  if (Math.abs(angle - whole) > nearlyTurned) return angle;
  return whole <= -Math.PI ? Math.PI : whole;
}

/**
 * The dots that an outline lies on.
 *
 * @param lattice - Laid for it.
 * @param matrix - From the outline's own user units to millimetres of paper.
 * @param box - Its bounds in its own user units.
 * @returns Their bounds.
 */
export function dotsUnder(lattice: Lattice, matrix: Matrix, box: Box): Box {
  const back = invert(lattice.matrix);
  return boxAround(cornersOf(back === null ? matrix : compose(back, matrix), box));
}
