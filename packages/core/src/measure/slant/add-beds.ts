import { median } from '../../numeric/median.js';
import { addRow, type System } from './add-row.js';
import { standSize as size } from './to-stand.js';

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

/**
 * Count the courses that places of bed joints take in.
 *
 * @param points - Any number.
 * @returns 1 or more.
 */
export function countCourses(points: BedPoints): number {
  return points.k.reduce((most, joint) => Math.max(most, joint), 1);
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
    // By where it lies, not by its count: horizon and bow bend the count alike, and were one told
    // from the place and the other from the count, noise in the place would tell them apart.
    const height = (2 * at) / courses - 1;
    const bow = height * height - 1 / 3;
    const swing = height * (height * height - 3 / 5);
    misfit[i] = k[i]! - at - theta[7]! * bow - theta[11]! * swing;
    const bend = theta[7]! * 2 * height + theta[11]! * (3 * height * height - 3 / 5);
    const rise = (1 + (2 * bend) / courses) / w;
    const row = i * size;
    rows[row] = rise * x;
    rows[row + 1] = rise * y;
    rows[row + 2] = rise;
    rows[row + 3] = -rise * at * x;
    rows[row + 4] = -rise * at * y;
    rows[row + 5] = rise * ((a - at * g) * u[i]! + (b - at * h) * v[i]!) * far;
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

/**
 * Add to the fit of a wall that its bed joints are equally spaced. What disagrees with the rest loses
 * its say. A joint that was laid high is high all along, so its places share one error beside their
 * own.
 *
 * @param points - Places of bed joints.
 * @param theta - The numbers that are fitted, so far.
 * @param system - Added to.
 */
export function addBeds(points: BedPoints, theta: Float64Array, system: System): void {
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
    addRow(row, trust, off, system);
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
