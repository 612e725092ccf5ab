import { answerBoth } from './answer-both.js';
import { gatherStretch } from './gather-stretch.js';
import { reachOf } from './reach-of.js';
import { toJointFilters } from './to-joint-filters.js';
import type { Cells } from './fold-rows.js';

/** How much each row looks like a joint right across the picture, at one size of joint. */
export interface Evidence {
  /** Rows of the picture that one sample stands for. */
  readonly step: number;
  /** Samples. */
  readonly length: number;
  /** Deviation of the joints looked for, rows. */
  readonly joint: number;
  /**
   * -1 to 1: a line darker (above 0) or lighter (below 0) than both sides; 1 only where every
   * stretch of the row agrees.
   */
  readonly line: Float32Array;
  /** -1 to 1: an edge, dark above (above 0) or light above (below 0). */
  readonly edge: Float32Array;
  /** Samples that enough of the photo shows to tell. */
  readonly extent: number;
}

/**
 * Look for rows that are a joint in every stretch of the picture: a bed joint runs through, the top
 * of a pale brick, a stain or a pebble does not. Contrast does not count, agreement does.
 *
 * @param cells - The picture, folded.
 * @param course - Course height looked for, rows.
 * @param joint - Deviation of the joints looked for, rows: a tenth of the course or less.
 * @returns Evidence for each sample down the picture.
 */
export function findEvidence(cells: Cells, course: number, joint: number): Evidence {
  const step = Math.max(1, 2 ** Math.floor(Math.log2(joint)));
  const length = Math.floor(cells.rows / step);
  const width = cells.columns * cells.cellWidth;
  const stretches = Math.min(cells.columns, 40, Math.max(12, Math.round(width / (1.2 * course))));
  const filters = toJointFilters(Math.max(0.7, joint / step));
  const lines = new Float32Array(length);
  const edges = new Float32Array(length);
  const line = new Float32Array(length);
  const edge = new Float32Array(length);
  const sums = { line, edge, power: new Float32Array(length), shown: new Float32Array(length) };
  for (let s = 0; s < stretches; s++) {
    const from = Math.round((s * cells.columns) / stretches);
    const to = Math.round(((s + 1) * cells.columns) / stretches);
    const samples = gatherStretch(cells, { from, to, step });
    answerBoth(samples, filters, { lines, edges });
    const reach = reachOf(cells, { from, to, step });
    addAnswers(lines, edges, reach, sums);
  }
  const extent = weigh(sums, stretches);
  return { step, length, joint, line, edge, extent };
}

interface Sums {
  readonly line: Float32Array;
  readonly edge: Float32Array;
  readonly power: Float32Array;
  readonly shown: Float32Array;
}

// Loops of their own, for they are called for every stretch and size of joint: one function of all would be
// compiled anew for each of them.
function addAnswers(
  lines: Float32Array,
  edges: Float32Array,
  reach: { readonly from: number; readonly to: number },
  { line, edge, power, shown }: Sums,
): void {
  for (let i = reach.from; i < reach.to; i++) {
    shown[i] = shown[i]! + 1;
    const l = lines[i]!;
    const e = edges[i]!;
    line[i] = line[i]! + l;
    edge[i] = edge[i]! + e;
    power[i] = power[i]! + l * l + e * e;
  }
}

// Makes answers of their sums. Returns how many samples enough stretches show.
function weigh({ line, edge, power, shown }: Sums, stretches: number): number {
  const { length } = line;
  let mean = 0;
  let all = 0;
  let extent = 0;
  for (let i = 0; i < length; i++) {
    mean += power[i]!;
    all += shown[i]!;
    if (shown[i]! >= stretches / 2) extent++;
  }
  for (let i = 0; i < length; i++) {
    // Where few stretches are shown, a few that agree say less than many.
    const count = Math.max(shown[i]!, stretches / 4);
    // A share of the picture's own power, so that agreement in what is hardly there weighs little.
    const norm = 1 / Math.sqrt(count * (power[i]! + (0.15 * mean * count) / all) + 1e-20);
    line[i] = line[i]! * norm;
    edge[i] = edge[i]! * norm;
  }
  return extent;
}
