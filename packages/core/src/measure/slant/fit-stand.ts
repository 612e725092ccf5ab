import { invertSymmetric } from '../../numeric/invert-symmetric.js';
import { addBeds, type BedPoints, countCourses } from './add-beds.js';
import { addBricks, type BrickPoints } from './add-bricks.js';
import { addPerpends } from './add-perpends.js';
import type { System } from './add-row.js';
import type { PerpendSight } from './guess-stand.js';
import type { Stand } from './lay-plane.js';
import { spreadStand, type StandSpread } from './spread-stand.js';
import { standSize as size, toStand } from './to-stand.js';

/** How the wall lies, and how sure that is. */
export interface StandFit extends StandSpread {
  /** How it lies. */
  readonly stand: Stand;
  /** Barrel distortion, as a share of half the diagonal. */
  readonly lens: number;
}

/** What may be fitted: a wall at a slant needs all of it, a level one none. */
export interface FitStandOptions {
  /** How it lies, about. */
  readonly from: Stand;
  /** Directions of perpends. */
  readonly perpends: readonly PerpendSight[];
  /** Standard uncertainty (k = 1) of the focal length in `from`, as a fraction. */
  readonly focalSpread: number;
  /** The same of where the camera looked straight ahead, in units of half the photo's diagonal. */
  readonly aheadSpread: number;
  /** Places of perpends, where they are known. */
  readonly bricks?: BrickPoints;
}

/** Deviations over all photographs: what joints do not tell stays near the usual. */
const usual = { horizon: 0.2, lens: 0.01, laying: 0.06 } as const;
/**
 * Fit one wall to all joints at once: places of bed joints, equally spaced on the wall, and
 * directions of perpends, square to them. What disagrees with the rest loses its say. A joint that
 * was laid high is high all along, so its places share one error beside their own.
 *
 * @param points - Places of bed joints.
 * @param options - Where to begin, and what else is known.
 * @returns How the wall lies.
 * @see P. J. Huber, Robust Statistics, 7; W. A. Fuller and G. E. Battese, Transformations for
 *   estimation of linear models with nested-error structure, JASA 68 (1973)
 */
export function fitStand(points: BedPoints, options: FitStandOptions): StandFit {
  const { from } = options;
  const theta = begin(points, from);
  theta[6] = Math.log(from.focal);
  theta[8] = from.ahead.u;
  theta[9] = from.ahead.v;
  let normal = new Float64Array(size * size);
  for (let round = 0; round < 12; round++) {
    const system = { normal: new Float64Array(size * size), right: new Float64Array(size) };
    addBeds(points, theta, system);
    addPerpends(options.perpends, theta, system);
    if (options.bricks) addBricks(options.bricks, theta, system);
    addUsual(theta, { ...options, courses: countCourses(points) }, system);
    fillBelow(system.normal);
    const inverse = invertSymmetric(system.normal, size);
    let most = 0;
    for (let i = 0; i < size; i++) {
      let step = 0;
      for (let j = 0; j < size; j++) step += inverse[i * size + j]! * system.right[j]!;
      theta[i]! += step;
      if (i >= 3) most = Math.max(most, Math.abs(step));
    }
    normal = system.normal;
    if (round > 3 && most < 1e-6) break;
  }
  const covariance = invertSymmetric(normal, size);
  return {
    stand: toStand(theta),
    lens: theta[5]!,
    ...spreadStand(theta, covariance),
  };
}

function fillBelow(normal: Float64Array): void {
  for (let p = 1; p < size; p++) {
    for (let q = 0; q < p; q++) normal[p * size + q] = normal[q * size + p]!;
  }
}

// With the horizon taken as told, a, b and c are linear: least squares by the joints alone.
function begin(points: BedPoints, { across, down }: Stand): Float64Array {
  const { u, v, k, weight } = points;
  const normal = new Float64Array(9);
  const right = new Float64Array(3);
  for (let i = 0; i < k.length; i++) {
    const w = 1 + across * u[i]! + down * v[i]!;
    const row = [u[i]! / w, v[i]! / w, 1 / w];
    for (let p = 0; p < 3; p++) {
      for (let q = 0; q < 3; q++) normal[3 * p + q]! += weight[i]! * row[p]! * row[q]!;
      right[p]! += weight[i]! * row[p]! * k[i]!;
    }
  }
  const inverse = invertSymmetric(normal, 3);
  const theta = new Float64Array(size);
  for (let p = 0; p < 3; p++) {
    for (let q = 0; q < 3; q++) theta[p]! += inverse[3 * p + q]! * right[q]!;
  }
  theta[3] = across;
  theta[4] = down;
  return theta;
}

function addUsual(
  theta: Float64Array,
  { from, focalSpread, aheadSpread, courses }: FitStandOptions & { readonly courses: number },
  { normal, right }: System,
): void {
  const hold = (p: number, to: number, deviation: number): void => {
    normal[p * size + p]! += 1 / deviation ** 2;
    right[p]! += (to - theta[p]!) / deviation ** 2;
  };
  hold(3, 0, usual.horizon);
  hold(4, 0, usual.horizon);
  hold(5, 0, usual.lens);
  hold(6, Math.log(from.focal), focalSpread);
  // Courses that grow by some share from foot to top bow the count by an eighth of it; those that
  // grow and shrink again let it swing.
  hold(7, 0, (usual.laying * courses) / 8);
  hold(11, 0, (usual.laying * courses) / 16);
  hold(8, from.ahead.u, aheadSpread);
  hold(9, from.ahead.v, aheadSpread);
}
