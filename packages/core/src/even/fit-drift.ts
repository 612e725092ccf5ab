import { farOff, fitRobust } from '../numeric/fit-robust.js';
import { invertSymmetric } from '../numeric/invert-symmetric.js';
import { median } from '../numeric/median.js';
import type { PerAxis } from '../surface/measurement.js';
import { type DriftCurve, layCurves } from './drift-curves.js';
import { patchiness } from './patchiness.js';

/** A curve, and how much of it. */
export interface DriftTerm extends DriftCurve {
  /** In logarithms of light. */
  readonly amount: number;
}

/** What was fitted to the cells. */
export interface Drift {
  /** None where the light is even. */
  readonly terms: readonly DriftTerm[];
  /** How much darker (below 0) it is beyond the edge, in logarithms; 0 without one. */
  readonly step: number;
  /** By how many of its own deviations that differs from 0. */
  readonly certainty: number;
}

/** Cells, and what may lie over them. */
export interface CellsToFit {
  /** Cells across and down. */
  readonly count: PerAxis<number>;
  /** Middles of the cells. */
  readonly x: Float64Array;
  /** The same, down. */
  readonly y: Float64Array;
  /** What light may follow. */
  readonly curves: readonly DriftCurve[];
  /** What they hold: bricks, each of its own light, or anything. */
  readonly of: 'bricks' | 'patches';
  /** Of each cell, how much of it lies beyond an edge; or null. */
  readonly beyond: Float64Array | null;
}

// All curves together hold 1 of what chance would, more or less, where the light is even and bricks
// or patches happen to be dark on one side: up to the least, all is left; from the most on, nothing.
// Of a wall next to all goes, as a tile would show it. Blotches of a texture hold more in slow waves
// than in finer ones, and only what stands well above them is light.
const bounds = { bricks: { least: 0.25, most: 1.25 }, patches: { least: 2, most: 6 } } as const;

/**
 * Fit the slow change of light over a picture. Cells that stand off, as behind a pipe, lose their
 * say; what may be chance, bricks or patches that happen to be dark on one side, is left.
 *
 * @param cells - Their places, what they hold, and what may lie over them.
 * @param values - Of each, light or tint in logarithms.
 * @returns Its curves, and the step at the edge.
 * @see Beaton and Tukey 1974, The fitting of power series, Technometrics 16: the biweight
 */
export function fitDrift(cells: CellsToFit, values: Float64Array): Drift {
  const { curves, beyond } = cells;
  const size = values.length;
  const table = layTable(cells);
  const wide = table.length / size;
  // From all cells alike the fit would begin by bending to a plinth or a coping, and stay so: from
  // level, at the light of most cells, it leaves them out.
  const start = new Float64Array(wide);
  start[0] = median(values);
  const fit = fitRobust(table, values, start);
  const rest = values.map((value, cell) => {
    let sum = value;
    for (let i = 0; i < wide; i++) sum -= fit[i]! * table[cell * wide + i]!;
    return sum;
  });
  const far = farOff(rest.map(Math.abs));
  const heard = Uint8Array.from(rest, (value) => (Math.abs(value) <= far ? 1 : 0));
  const { variance, inverse } = scatter(table, rest, heard);
  const chance =
    variance *
    patchiness(
      rest.map((value, cell) => value * heard[cell]!),
      cells.count,
    );
  const held = curvesHold(table, { fit, curves: curves.length, heard });
  const ratio = curves.length === 0 ? 0 : held / (curves.length * chance);
  const { least, most } = bounds[cells.of];
  const share = Math.min(1, Math.max(0, (ratio - least) / (most - least)));
  const last = wide - 1;
  const step = beyond === null ? 0 : fit[last]!;
  return {
    terms: share > 0 ? curves.map((curve, i) => ({ ...curve, amount: share * fit[i + 1]! })) : [],
    step,
    certainty: Math.abs(step) / Math.sqrt(Math.max(1e-12, chance * inverse[last * wide + last]!)),
  };
}

// A level one, the curves, and the edge where there is one: a row of numbers a cell.
function layTable(cells: CellsToFit): Float64Array {
  const { beyond, curves } = cells;
  const plain = layCurves(cells, curves);
  if (beyond === null) return plain;
  const wide = curves.length + 1;
  const table = new Float64Array(beyond.length * (wide + 1));
  for (let cell = 0; cell < beyond.length; cell++) {
    table.set(plain.subarray(cell * wide, (cell + 1) * wide), cell * (wide + 1));
    table[cell * (wide + 1) + wide] = beyond[cell]!;
  }
  return table;
}

// Variance of the cells that were heard about the fit, and what a unit of it makes of the amounts'.
function scatter(
  table: Float64Array,
  rest: Float64Array,
  heard: Uint8Array,
): { readonly variance: number; readonly inverse: Float64Array } {
  const wide = table.length / rest.length;
  const normal = new Float64Array(wide * wide);
  let said = 0;
  let square = 0;
  for (let cell = 0; cell < rest.length; cell++) {
    if (heard[cell] === 0) continue;
    said++;
    square += rest[cell]! ** 2;
    for (let i = 0; i < wide; i++) {
      for (let k = 0; k < wide; k++) {
        normal[i * wide + k]! += table[cell * wide + i]! * table[cell * wide + k]!;
      }
    }
  }
  return {
    variance: Math.max(1e-9, square / Math.max(1, said - wide)),
    inverse: invertSymmetric(normal, wide),
  };
}

// Sum of squares, over the cells that were heard, of what the curves say about their mean.
function curvesHold(
  table: Float64Array,
  what: { readonly fit: Float64Array; readonly curves: number; readonly heard: Uint8Array },
): number {
  const { fit, curves, heard } = what;
  const wide = table.length / heard.length;
  let [said, sum, square] = [0, 0, 0];
  for (let cell = 0; cell < heard.length; cell++) {
    if (heard[cell] === 0) continue;
    let value = 0;
    for (let i = 1; i <= curves; i++) value += fit[i]! * table[cell * wide + i]!;
    said++;
    sum += value;
    square += value * value;
  }
  return said === 0 ? 0 : square - (sum * sum) / said;
}
