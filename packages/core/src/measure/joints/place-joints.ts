import { fitPlane } from '../../numeric/fit-plane.js';
import { median } from '../../numeric/median.js';
import { correlate } from './correlate.js';
import { gatherStretch } from './gather-stretch.js';
import { reachOf } from './reach-of.js';
import { toJointFilters } from './to-joint-filters.js';
import type { Cells } from './fold-rows.js';
import { keepShown } from './keep-shown.js';
import { spreadOfCourse } from './spread-of-course.js';

/** Bed joints to a fraction of a pixel, and the straight lines they make. */
export interface PlacedJoints {
  /** Course height, px. */
  readonly course: number;
  /** Standard uncertainty of `course`, px: twice it holds 95 % of truths. */
  readonly uncertainty: number;
  /** y of the first joint at the middle column, px from the top edge. */
  readonly first: number;
  /** Rows a joint falls for each column to the right. */
  readonly slope: number;
  /** y of each joint at the middle column as found, top down. */
  readonly joints: readonly number[];
  /**
   * For each joint, the share of stretches across in which it is the strongest line within half a
   * course either way; under chance alone about a fifth.
   */
  readonly wins: readonly number[];
  /**
   * How evenly the joints show along their length, where nothing hides them: the lower quartile of
   * the response over the upper one. Near 0 where a line is there in some stretches and missing in others.
   */
  readonly steadiness: number;
  /** Every place of every joint, to fit a wall to. */
  readonly points: JointPoints;
}

/** Where joints were seen, stretch by stretch across. */
interface JointPoints {
  /** Which joint, counted down from the first. */
  readonly k: Float64Array;
  /** Columns from the left edge, in px of rows. */
  readonly x: Float64Array;
  /** Rows from the top edge. */
  readonly y: Float64Array;
  /** How well it shows, 0 to 1; 0 where the photo does not reach. */
  readonly weight: Float64Array;
}

/** Joints as they were followed, roughly placed. */
export interface RoughJoints {
  /** y of each, px from the top edge. */
  readonly joints: readonly number[];
  /** About a course, px. */
  readonly course: number;
  /** Mix of line and edge that they show, radians. */
  readonly look: number;
  /** Deviation of the joints, rows. */
  readonly joint: number;
}

/** How near a line must lie to its joint's place to be that joint, as a fraction of a course. */
const near = 0.1;

// Highest peak of a sampled response near a place, by the parabola through three samples.
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

// One place for each joint in each stretch: `k` counts joints fastest.
interface Places {
  readonly stretches: number;
  readonly u: Float64Array;
  readonly v: Float64Array;
  readonly z: Float64Array;
  readonly weight: Float64Array;
  /** 1 where the photo reaches. */
  readonly shown: Uint8Array;
  /** y of the strongest line within half a course. */
  readonly strongest: Float64Array;
  readonly step: number;
  readonly responses: readonly Float32Array[];
}

function findPlaces(cells: Cells, rough: RoughJoints): Places {
  const { course, joints, look, joint } = rough;
  const step = Math.max(1, 2 ** Math.floor(Math.log2(joint / 2)));
  const { line, edge } = toJointFilters(Math.max(0.7, joint / step));
  const taps = line.map((tap, i) => Math.cos(look) * tap + Math.sin(look) * edge[i]!);
  const width = cells.columns * cells.cellWidth;
  const stretches = Math.min(cells.columns, 80, Math.max(8, Math.round(width / (0.8 * course))));
  const size = stretches * joints.length;
  const [u, v, z] = [new Float64Array(size), new Float64Array(size), new Float64Array(size)];
  const [weight, strongest] = [new Float64Array(size), new Float64Array(size)];
  const shown = new Uint8Array(size);
  const rows = course / step;
  const responses: Float32Array[] = [];
  for (let s = 0; s < stretches; s++) {
    const from = Math.round((s * cells.columns) / stretches);
    const to = Math.round(((s + 1) * cells.columns) / stretches);
    const samples = gatherStretch(cells, { from, to, step });
    const response = correlate(samples, taps, new Float32Array(samples.length));
    responses.push(response);
    const reach = reachOf(cells, { from, to, step });
    for (let k = 0; k < joints.length; k++) {
      const i = s * joints.length + k;
      const at = joints[k]! / step - 0.5;
      const { y, value } = peakNear(response, at, 0.25 * rows);
      u[i] = k;
      v[i] = ((from + to) / 2) * cells.cellWidth - width / 2;
      z[i] = (y + 0.5) * step;
      shown[i] = at >= reach.from && at < reach.to ? 1 : 0;
      weight[i] = shown[i] ? Math.max(0, value) : 0;
      strongest[i] = (peakNear(response, at, 0.5 * rows).y + 0.5) * step;
    }
  }
  return { stretches, u, v, z, weight, shown, strongest, step, responses };
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
  const places = findPlaces(cells, rough);
  const weight = even(places.weight);
  const { stretches, u, v, z } = places;
  const plane = fitPlane({ u, v, z, weight });
  const count = rough.joints.length;
  const joints = new Float64Array(count);
  const wins = new Float64Array(count);
  const reach = Math.max(near * rough.course, 0.6);
  const grid = new Int8Array(stretches * count).fill(-1);
  const shown = new Float64Array(stretches * count);
  for (let k = 0; k < count; k++) {
    const seen = Array.from({ length: stretches }, (_, s) => s * count + k).filter(
      (i) => places.shown[i],
    );
    const y = seen.length
      ? median(Float64Array.from(seen, (i) => z[i]! - plane.c * v[i]!))
      : rough.joints[k]!;
    for (const i of seen) {
      const off = places.strongest[i]! - plane.c * v[i]! - y;
      grid[i] = Math.abs(off) <= reach ? 1 : 0;
      if (grid[i] === 1) wins[k] = wins[k]! + 1 / seen.length;
      const at = (y + plane.c * v[i]!) / places.step - 0.5;
      shown[i] = sample(places.responses[(i - k) / count]!, at);
    }
    joints[k] = y;
  }
  const kept = keepShown({ stretches, joints: count, wins: grid });
  const half = (cells.columns * cells.cellWidth) / 2;
  return {
    course: plane.b,
    uncertainty: spreadOfCourse(joints),
    first: plane.a,
    slope: plane.c,
    joints: [...joints],
    wins: [...wins],
    steadiness: toSteadiness(shown.filter((_, i) => kept[i])),
    points: { k: u, x: v.map((across) => across + half), y: z, weight },
  };
}

// Faint joints count less, strong ones not without end: up to the median.
function even(weight: Float64Array): Float64Array {
  const sorted = weight.slice().sort();
  const middle = sorted[sorted.length >> 1]!;
  return middle > 0 ? weight.map((w) => Math.min(1, w / middle)) : weight;
}

function sample(values: Float32Array, at: number): number {
  const i = Math.min(values.length - 2, Math.max(0, Math.floor(at)));
  return values[i]! + Math.min(1, Math.max(0, at - i)) * (values[i + 1]! - values[i]!);
}

function toSteadiness(shown: Float64Array): number {
  const sorted = shown.slice().sort();
  const upper = sorted[Math.floor(sorted.length * 0.75)]!;
  return upper > 0 ? Math.max(-1, sorted[Math.floor(sorted.length * 0.25)]! / upper) : -1;
}
