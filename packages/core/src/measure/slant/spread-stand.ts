import { invertSymmetric } from '../../numeric/invert-symmetric.js';
import { aspectOf } from './aspect-of.js';
import { standSize as size, toStand } from './to-stand.js';

/** Standard uncertainties (k = 1) of the scale at the middle of a photo, as fractions. */
export interface ScaleSpread {
  /** Joints that wander, were the slant known. */
  readonly fit: number;
  /** Slant and perspective, as far as the joints leave them open. */
  readonly perspective: number;
  /** The lens, likewise. */
  readonly lens: number;
}

/** How sure a stand is. */
export interface StandSpread {
  /** Covariance of slope, across, down and lens, row by row. */
  readonly covariance: Float64Array;
  /** What may put the scale at the middle of the photo out. */
  readonly scale: ScaleSpread;
  /**
   * Standard uncertainty (k = 1) of the scale along the courses over that down them, as a fraction:
   * beds and perpends foreshorten by an angle that the horizon gives only together with the focal
   * length, and with where the camera looked.
   */
  readonly aspect: number;
}

/**
 * Say how sure a fitted wall is.
 *
 * @param theta - The numbers that were fitted.
 * @param covariance - Theirs, row by row.
 * @returns The same for what is made of them.
 * @see JCGM 100:2008 (GUM), equation 13
 */
export function spreadStand(theta: Float64Array, covariance: Float64Array): StandSpread {
  return {
    covariance: carry(theta, covariance),
    scale: spreadScale(theta, covariance),
    aspect: spreadAspect(theta, covariance),
  };
}

// Courses go by fastest along the gradient of their count; at the middle that is a, b less what the
// horizon takes. Its variance falls into what is left with horizon and lens known, what the lens
// explains by itself, and the rest.
function spreadScale(theta: Float64Array, covariance: Float64Array): ScaleSpread {
  const [a, b, c, g, h] = [theta[0]!, theta[1]!, theta[2]!, theta[3]!, theta[4]!];
  const [right, down] = [a - c * g, b - c * h];
  const square = right * right + down * down;
  const row = [right, down, -g * right - h * down, -c * right, -c * down, 0, 0, 0, 0, 0, 0, 0];
  const moves = Float64Array.from({ length: size }, (_, p) =>
    row.reduce((sum, q, j) => sum + (q / square) * covariance[p * size + j]!, 0),
  );
  const all = row.reduce((sum, q, j) => sum + (q / square) * moves[j]!, 0);
  const open = [3, 4, 5];
  const inverse = invertSymmetric(
    Float64Array.from(open.flatMap((p) => open.map((q) => covariance[p * size + q]!))),
    3,
  );
  let explained = 0;
  for (const [i, p] of open.entries()) {
    for (const [j, q] of open.entries()) explained += moves[p]! * inverse[3 * i + j]! * moves[q]!;
  }
  const lens = moves[5]! ** 2 / covariance[5 * size + 5]!;
  return {
    fit: Math.sqrt(Math.max(0, all - explained)),
    perspective: Math.sqrt(Math.max(0, explained - lens)),
    lens: Math.sqrt(Math.max(0, lens)),
  };
}

function spreadAspect(theta: Float64Array, covariance: Float64Array): number {
  const row = slopesOf(theta, (moved) => Math.log(aspectOf(toStand(moved))));
  let variance = 0;
  for (let p = 0; p < size; p++) {
    for (let q = 0; q < size; q++) variance += row[p]! * covariance[p * size + q]! * row[q]!;
  }
  return Math.sqrt(Math.max(0, variance));
}

// How a number changes with each that was fitted.
function slopesOf(theta: Float64Array, of: (theta: Float64Array) => number): Float64Array {
  const here = of(theta);
  return theta.map((value, p) => {
    const step = 1e-6 * Math.max(1, Math.abs(value));
    const moved = theta.slice();
    moved[p] = value + step;
    return (of(moved) - here) / step;
  });
}

// From the covariance of all to that of slope, across, down and lens.
function carry(theta: Float64Array, covariance: Float64Array): Float64Array {
  const rows = new Float64Array(4 * size);
  rows.set(slopesOf(theta, (moved) => toStand(moved).slope));
  rows[size + 3] = 1;
  rows[2 * size + 4] = 1;
  rows[3 * size + 5] = 1;
  const out = new Float64Array(16);
  for (let i = 0; i < 4; i++) {
    for (let j = 0; j < 4; j++) {
      for (let p = 0; p < size; p++) {
        for (let q = 0; q < size; q++) {
          out[i * 4 + j]! += rows[i * size + p]! * covariance[p * size + q]! * rows[j * size + q]!;
        }
      }
    }
  }
  return out;
}
