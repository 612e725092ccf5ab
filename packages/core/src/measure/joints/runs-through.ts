import { correlate } from './correlate.js';
import { gatherStretch } from './gather-stretch.js';
import { reachOf } from './reach-of.js';
import { toJointFilters } from './to-joint-filters.js';
import type { Cells } from './fold-rows.js';
import type { PlacedJoints } from './place-joints.js';

/** Joints that were placed, and how they show. */
interface Shown {
  readonly placed: PlacedJoints;
  /** Mix of line and edge that they show, radians. */
  readonly look: number;
  /** Deviation of the joints, rows. */
  readonly joint: number;
}

/** Stretches across: many to a window. */
const stretches = 40;
/** A line this near a joint's place may be it, as a fraction of a course: the foot of a tile waves. */
const near = 0.2;
/** A line weaker than this share of the usual one is none. */
const faint = 0.3;
/** Where no more than this share of the joints is there, nothing of them is. */
const fewJoints = 0.25;
/** Share of the width with nothing of them, above which they are the edges of things in rows. */
const mostBare = 0.25;

/**
 * Tell joints from the edges of things that stand in rows, windows above all: a bed joint runs right
 * across, and what hides it in one place hides it seldom in the same place of every other joint.
 *
 * @param cells - The picture, folded.
 * @param shown - Joints, and how they show.
 * @returns False where they are missing in two columns or more, which take up much of the width.
 */
export function runsThrough(cells: Cells, shown: Shown): boolean {
  const bare = findBare(cells, shown);
  const columns = bare.filter((is, s) => is && !(bare[s - 1] ?? false)).length;
  return columns < 2 || bare.filter(Boolean).length <= mostBare * bare.length;
}

function findBare(cells: Cells, { placed, look, joint }: Shown): boolean[] {
  const { joints, slope, course } = placed;
  const step = Math.max(1, 2 ** Math.floor(Math.log2(joint / 2)));
  const { line, edge } = toJointFilters(Math.max(0.7, joint / step));
  const taps = line.map((tap, i) => Math.cos(look) * tap + Math.sin(look) * edge[i]!);
  const count = Math.min(cells.columns, stretches);
  const half = (cells.columns * cells.cellWidth) / 2;
  const peaks: number[][] = [];
  for (let s = 0; s < count; s++) {
    const from = Math.round((s * cells.columns) / count);
    const to = Math.round(((s + 1) * cells.columns) / count);
    const samples = gatherStretch(cells, { from, to, step });
    const response = correlate(samples, taps, new Float32Array(samples.length));
    const reach = reachOf(cells, { from, to, step });
    const v = ((from + to) / 2) * cells.cellWidth - half;
    const places = joints.map((y) => (y + slope * v) / step - 0.5);
    const seen = places.filter((at) => at >= reach.from && at < reach.to);
    peaks.push(seen.map((at) => mostNear(response, at, (near * course) / step)));
  }
  const sorted = Float64Array.from(peaks.flat()).sort();
  const least = faint * (sorted[Math.floor(sorted.length * 0.75)] ?? 0);
  return peaks.map((values) => {
    const there = values.filter((value) => value > least).length;
    return values.length > 1 && there <= fewJoints * values.length;
  });
}

function mostNear(response: Float32Array, at: number, reach: number): number {
  let most = -Infinity;
  const last = Math.min(response.length - 1, Math.floor(at + reach));
  for (let i = Math.max(0, Math.ceil(at - reach)); i <= last; i++) {
    most = Math.max(most, response[i]!);
  }
  return most;
}
