import { invertSymmetric } from '../../numeric/invert-symmetric.js';
import { median } from '../../numeric/median.js';
import { addBricks, type BrickPoints, type System } from './add-bricks.js';
import { strengthOf } from './fit-pencil.js';
import type { PerpendSight } from './guess-stand.js';
import { type Stand, toWallAxes } from './lay-plane.js';
import { spreadStand, type StandSpread } from './spread-stand.js';
import { standSize as size, toStand } from './to-stand.js';

/**
 * Places of bed joints in the photo, in units of half its diagonal from its middle: stretch by
 * stretch across, in each all joints from the top.
 */
export interface BedPoints {
  /** To the right. */
  readonly u: Float64Array;
  /** Down. */
  readonly v: Float64Array;
  /** Which joint, counted down from any. */
  readonly k: Float64Array;
  /** 0 or more; 0 leaves a place out. */
  readonly weight: Float64Array;
}

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
/** Deviation of a perpend's direction that is right. */
const lean = 0.012;

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

function countCourses({ k }: BedPoints): number {
  return k.reduce((most, joint) => Math.max(most, joint), 1);
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

// Misfits in courses, and how they change with each number, a row of `size` after another.
function lineUp(
  points: BedPoints,
  theta: Float64Array,
): { misfit: Float64Array; rows: Float64Array } {
  const { u, v, k } = points;
  const [a, b, c, g, h, lens] = [theta[0]!, theta[1]!, theta[2]!, theta[3]!, theta[4]!, theta[5]!];
  const courses = countCourses(points);
  const misfit = new Float64Array(k.length);
  const rows = new Float64Array(k.length * size);
  for (let i = 0; i < k.length; i++) {
    const far = u[i]! ** 2 + v[i]! ** 2;
    const x = u[i]! * (1 + lens * far);
    const y = v[i]! * (1 + lens * far);
    const w = 1 + g * x + h * y;
    const at = (a * x + b * y + c) / w;
    const height = (2 * k[i]!) / courses - 1;
    const bow = height * height - 1 / 3;
    const swing = height * (height * height - 3 / 5);
    misfit[i] = k[i]! - at - theta[7]! * bow - theta[11]! * swing;
    const row = i * size;
    rows[row] = x / w;
    rows[row + 1] = y / w;
    rows[row + 2] = 1 / w;
    rows[row + 3] = (-at * x) / w;
    rows[row + 4] = (-at * y) / w;
    rows[row + 5] = (((a - at * g) * u[i]! + (b - at * h) * v[i]!) * far) / w;
    rows[row + 7] = bow;
    rows[row + 11] = swing;
  }
  return { misfit, rows };
}

interface Joints {
  /** Weighted mean misfit of each. */
  readonly mean: Float64Array;
  /** Weight of each. */
  readonly weight: Float64Array;
}

function joinUp(k: Float64Array, misfit: Float64Array, weight: Float64Array): Joints {
  const count = 1 + k.reduce((most, joint) => Math.max(most, joint), 0);
  const mean = new Float64Array(count);
  const sums = new Float64Array(count);
  for (let i = 0; i < k.length; i++) {
    mean[k[i]!]! += weight[i]! * misfit[i]!;
    sums[k[i]!]! += weight[i]!;
  }
  for (let j = 0; j < count; j++) if (sums[j]! > 0) mean[j]! /= sums[j]!;
  return { mean, weight: sums };
}

function clamp(value: number, least: number, most: number): number {
  return Math.min(most, Math.max(least, value));
}

function spreadOf(values: Float64Array): number {
  return 1.4826 * median(values.map(Math.abs));
}

// Of misfits with a weight, less the mean of their joint where that is given.
function spreadOfKept(misfit: Float64Array, weight: Float64Array, own?: OwnMeans): number {
  const sizes = new Float64Array(misfit.length);
  let count = 0;
  for (let i = 0; i < misfit.length; i++) {
    if (!(weight[i]! > 0)) continue;
    sizes[count++] = Math.abs(misfit[i]! - (own ? own.mean[own.k[i]!]! : 0));
  }
  return 1.4826 * median(sizes.subarray(0, count));
}

interface OwnMeans {
  readonly k: Float64Array;
  readonly mean: Float64Array;
}

function addBeds(points: BedPoints, theta: Float64Array, { normal, right }: System): void {
  const { k } = points;
  const { misfit, rows } = lineUp(points, theta);
  const far = 4.685 * clamp(spreadOfKept(misfit, points.weight), 0.004, 0.08);
  const weight = points.weight.map((w, i) => {
    const share = misfit[i]! / far;
    return share < 1 && share > -1 ? w * (1 - share * share) ** 2 : 0;
  });
  const joints = joinUp(k, misfit, weight);
  const own = clamp(spreadOfKept(misfit, weight, { k, mean: joints.mean }), 0.002, 0.08);
  // Without a bound the joints could explain themselves away, each by an error of its own.
  const met = joints.mean.filter((_, j) => joints.weight[j]! > 0);
  // Four numbers were fitted to them.
  const lost = Math.sqrt(met.length / Math.max(1, met.length - 4));
  const shared = clamp(lost * spreadOf(met), 0.002, 0.06);
  const alike = likenessOf(points, misfit, { weight, joints });
  const means = new Float64Array(joints.mean.length * size);
  for (let i = 0; i < k.length; i++) {
    const to = k[i]! * size;
    for (let p = 0; p < size; p++) {
      means[to + p] = means[to + p]! + weight[i]! * rows[i * size + p]!;
    }
  }
  const row = new Float64Array(size);
  for (let i = 0; i < k.length; i++) {
    if (!(weight[i]! > 0)) continue;
    const joint = k[i]!;
    const sum = joints.weight[joint]!;
    // What all places of a joint share counts once, not as often as there are places.
    const pull = 1 - 1 / Math.sqrt(1 + (sum * shared * shared) / (alike * own * own));
    const trust = weight[i]! / (alike * own * own);
    const off = misfit[i]! - pull * joints.mean[joint]!;
    for (let p = 0; p < size; p++) {
      row[p] = rows[i * size + p]! - (pull * means[joint * size + p]!) / sum;
    }
    addRow(row, trust, off, { normal, right });
  }
}

function addRow(row: Float64Array, trust: number, off: number, { normal, right }: System): void {
  for (let p = 0; p < size; p++) {
    const pull = trust * row[p]!;
    right[p] = right[p]! + pull * off;
    for (let q = 0; q < size; q++) {
      const at = p * size + q;
      normal[at] = normal[at]! + pull * row[q]!;
    }
  }
}

/** Stretches along a joint over which it may wander as one. */
const longestWander = 8;

// How many places along a joint tell as much as one that stands alone: neighbours lie on one brick,
// and a line of bricks wanders slowly. The sum of their correlations, over all joints at once.
function likenessOf(
  { k }: BedPoints,
  misfit: Float64Array,
  { weight, joints }: { readonly weight: Float64Array; readonly joints: Joints },
): number {
  const count = joints.mean.length;
  const off = misfit.map((m, i) => (weight[i]! > 0 ? m - joints.mean[k[i]!]! : 0));
  let power = 0;
  for (const there of off) power += there * there;
  if (!(power > 0)) return 1;
  let like = 1;
  for (let lag = 1; lag <= longestWander; lag++) {
    let both = 0;
    for (let i = lag * count; i < off.length; i++) both += off[i]! * off[i - lag * count]!;
    // Past the first that is none, correlations are chance.
    if (both <= 0) break;
    like += (2 * both) / power;
  }
  return Math.min(like, 2 * longestWander);
}

function leanAt(theta: Float64Array, { u, v }: PerpendSight): number {
  const { fall } = toWallAxes(toStand(theta));
  const focal = Math.exp(theta[6]!);
  return (focal * fall[0] - u * fall[2]) / (focal * fall[1] - v * fall[2]);
}

function addPerpends(
  perpends: readonly PerpendSight[],
  theta: Float64Array,
  { normal, right }: System,
): void {
  const row = new Float64Array(size);
  const shown = perpends.filter(({ weight }) => strengthOf(weight) > 0);
  const misfits = shown.map((seen) => seen.slope - leanAt(theta, seen));
  const spread = Math.max(lean, spreadOf(Float64Array.from(misfits)));
  for (const [i, seen] of shown.entries()) {
    const here = leanAt(theta, seen);
    const off = misfits[i]!;
    const share = off / (5 * spread);
    if (Math.abs(share) >= 1) continue;
    for (let p = 0; p < size; p++) {
      const moved = theta.slice();
      const step = 1e-5 * Math.max(1, Math.abs(moved[p]!));
      moved[p]! += step;
      row[p] = (leanAt(moved, seen) - here) / step;
    }
    const trust = ((1 - share * share) ** 2 * strengthOf(seen.weight)) / 12 / (spread * spread);
    addRow(row, trust, off, { normal, right });
  }
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
