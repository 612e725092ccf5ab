import { fitPlane } from '../numeric/fit-plane.js';
import { correlate, gatherStretch, toJointFilters } from './filter-stretch.js';
import type { Cells } from './fold-rows.js';

/** Bed joints to a fraction of a pixel, and the straight lines they make. */
export interface PlacedJoints {
  /** Course height, px. */
  readonly course: number;
  /** Standard uncertainty of `course`, px. */
  readonly uncertainty: number;
  /** y of the first joint at the middle column, px from the top edge. */
  readonly first: number;
  /** Rows a joint falls for each column to the right. */
  readonly slope: number;
  /** Deviation of a joint in one stretch from its place in the fit, px. */
  readonly deviation: number;
  /** y of each joint at the middle column as found, top down. */
  readonly joints: readonly number[];
}

/** Joints as they were followed, roughly placed. */
export interface RoughJoints {
  /** y of each, px from the top edge. */
  readonly joints: readonly number[];
  /** About a course, px. */
  readonly course: number;
  /** Mix of line and edge that they show, radians. */
  readonly look: number;
}

// Peak of a sampled response near a place, by the parabola through its three highest samples.
function peakNear(response: Float32Array, at: number, reach: number): { y: number; value: number } {
  const from = Math.max(1, Math.ceil(at - reach));
  const to = Math.min(response.length - 2, Math.floor(at + reach));
  let best = -1;
  for (let i = from; i <= to; i++) {
    const v = response[i]!;
    if (v < response[i - 1]! || v < response[i + 1]!) continue;
    if (best < 0 || v > response[best]!) best = i;
  }
  if (best < 0) return { y: at, value: 0 };
  const a = response[best - 1]!;
  const b = response[best]!;
  const c = response[best + 1]!;
  const bend = a - 2 * b + c;
  return { y: best + (bend < 0 ? (0.5 * (a - c)) / bend : 0), value: b };
}

/**
 * Place every joint anew in several stretches across, and fit all of them at once:
 * `y = first + course * k + slope * x`. What disagrees with the rest loses its say.
 *
 * @param cells - The picture, folded.
 * @param rough - Joints as followed, three or more.
 * @returns Course, tilt and joints, to a fraction of a pixel.
 */
export function placeJoints(cells: Cells, rough: RoughJoints): PlacedJoints {
  const { course, joints, look } = rough;
  const step = Math.max(1, 2 ** Math.floor(Math.log2(course / 20)));
  const filters = toJointFilters(Math.max(0.7, course / step / 10));
  const taps = filters.line.map(
    (tap, i) => Math.cos(look) * tap + Math.sin(look) * filters.edge[i]!,
  );
  const width = cells.columns * cells.cellWidth;
  const stretches = Math.min(cells.columns, 24, Math.max(6, Math.round(width / (2 * course))));
  const size = stretches * joints.length;
  const u = new Float64Array(size);
  const v = new Float64Array(size);
  const z = new Float64Array(size);
  const weight = new Float64Array(size);
  const sums = new Float64Array(joints.length);
  const weights = new Float64Array(joints.length);
  for (let s = 0; s < stretches; s++) {
    const from = Math.round((s * cells.columns) / stretches);
    const to = Math.round(((s + 1) * cells.columns) / stretches);
    const samples = gatherStretch(cells, { from, to, step });
    const response = correlate(samples, taps, new Float32Array(samples.length));
    for (let k = 0; k < joints.length; k++) {
      const i = s * joints.length + k;
      const { y, value } = peakNear(response, joints[k]! / step - 0.5, (0.25 * course) / step);
      u[i] = k;
      v[i] = ((from + to) / 2) * cells.cellWidth - width / 2;
      z[i] = (y + 0.5) * step;
      weight[i] = Math.max(0, value);
      sums[k] = sums[k]! + z[i] * weight[i];
      weights[k] = weights[k]! + weight[i];
    }
  }
  const plane = fitPlane({ u, v, z, weight: even(weight) });
  const placed = Float64Array.from(joints, (y, k) =>
    weights[k]! > 0 ? sums[k]! / weights[k]! : y,
  );
  return {
    course: plane.b,
    uncertainty: spreadOfCourse(placed),
    first: plane.a,
    slope: plane.c,
    deviation: plane.deviation,
    joints: [...placed],
  };
}

// A joint that was laid high is high in every stretch: only whole joints are independent.
function spreadOfCourse(joints: Float64Array): number {
  const nothing = new Float64Array(joints.length);
  const weight = new Float64Array(joints.length).fill(1);
  const u = Float64Array.from(joints, (_, k) => k);
  return fitPlane({ u, v: nothing, z: joints, weight }).uncertaintyOfB;
}

// Faint joints count less, strong ones not without end: up to the median.
function even(weight: Float64Array): Float64Array {
  const sorted = weight.slice().sort();
  const middle = sorted[sorted.length >> 1]!;
  return middle > 0 ? weight.map((w) => Math.min(1, w / middle)) : weight;
}
