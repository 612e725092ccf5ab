import { median } from '../../numeric/median.js';
import type { Cells } from './fold-rows.js';
import type { PlacedJoints } from './place-joints.js';

/** Bins in a course. */
const bins = 96;
/** How far from where it was found a joint's middle may lie, as a fraction of a course. */
const reach = 0.3;
/** A row belongs to the joint where it differs this much from a brick, of the most there is. */
const share = 0.45;
/** Widest joint, as a fraction of a course: more is a shadow or a stain. */
const widest = 0.4;

/**
 * Move joints to the middle of their mortar. They were found by whatever shows best, which may be
 * the shadow along one side of them.
 *
 * @param cells - The picture, folded.
 * @param placed - Its joints, all equally far from their middles.
 * @returns The same joints, moved as one.
 */
export function centreJoints(cells: Cells, placed: PlacedJoints): PlacedJoints {
  const profile = foldJoints(cells, placed);
  const shift = (findMiddle(profile) / bins) * placed.course;
  return {
    ...placed,
    first: placed.first + shift,
    joints: placed.joints.map((y) => y + shift),
  };
}

// Mean of every row about the joints, half a course either way.
function foldJoints(cells: Cells, { joints, course, slope }: PlacedJoints): Float64Array {
  const sums = new Float64Array(bins);
  const counts = new Float64Array(bins);
  const { columns, rows, cellWidth, lightness } = cells;
  const scale = bins / course;
  for (let c = 0; c < columns; c++) {
    const fall = slope * (c + 0.5 - columns / 2) * cellWidth;
    for (const joint of joints) {
      const top = joint + fall - course / 2;
      const end = Math.min(rows, Math.ceil(top + course - 0.5));
      for (let y = Math.max(0, Math.ceil(top - 0.5)); y < end; y++) {
        // A row counts for the bin that its middle lies in.
        const at = Math.min(bins - 1, Math.max(0, Math.floor((y + 0.5 - top) * scale)));
        sums[at] = sums[at]! + lightness[c * rows + y]!;
        counts[at] = counts[at]! + 1;
      }
    }
  }
  return smooth(sums, counts, Math.max(1, Math.round(scale / 4)));
}

// Means over a few bins either way, so that none is empty and each holds about half a row.
function smooth(sums: Float64Array, counts: Float64Array, half: number): Float64Array {
  return sums.map((_, b) => {
    let sum = 0;
    let count = 0;
    for (let d = -half; d <= half; d++) {
      const at = (b + d + bins) % bins;
      sum += sums[at]!;
      count += counts[at]!;
    }
    return count > 0 ? sum / count : 0;
  });
}

// Bins from the middle of the profile to the middle of the joint.
function findMiddle(profile: Float64Array): number {
  const level = median(profile.slice());
  const unlike = profile.map((value) => Math.abs(value - level));
  const centre = bins / 2;
  let peak = centre;
  for (let b = Math.ceil(centre - reach * bins); b <= centre + reach * bins; b++) {
    if (unlike[b]! > unlike[peak]!) peak = b;
  }
  const least = share * unlike[peak]!;
  const from = edgeOf(unlike, least, peak, -1);
  const to = edgeOf(unlike, least, peak, 1);
  return to - from <= widest * bins ? (from + to + 1) / 2 - centre : 0;
}

// Where the joint ends to one side, between two bins: it may be part light and part dark, with a
// bin or two as light as a brick between.
function edgeOf(unlike: Float64Array, least: number, peak: number, way: 1 | -1): number {
  let last = peak;
  for (let b = peak; Math.abs(b - last) <= 0.06 * bins && b > 0 && b < bins - 1; b += way) {
    if (unlike[b]! >= least) last = b;
  }
  const inside = unlike[last]!;
  const outside = unlike[last + way] ?? least;
  return last + (inside > outside ? (way * (inside - least)) / (inside - outside) : 0);
}
