import { hashCell } from './hash-cell.js';
import { createNoise, fade, type NoiseOctave, type NoiseRun } from './noise.js';

/** A wall as far as noise on it is concerned. */
export interface NoiseGround {
  /** Whole, 32 bits. */
  readonly seed: number;
  /** Millimetres after which the wall comes round, or 0 where it never does. */
  readonly period: {
    /** To the right. */
    readonly x: number;
    /** Down. */
    readonly y: number;
  };
  /** The finest that can be shown: mm of the wall from one place to the next. */
  readonly finest: number;
}

/** Which noise is wanted. */
export interface OctavesWish {
  /** Tells it from all others. */
  readonly id: number;
  /** Millimetres to a cell of its coarsest octave. */
  readonly cell: number;
  /** How often a cell is higher than wide; 1 unless told. */
  readonly tall?: number;
  /** Octaves, each half as coarse as the one before. */
  readonly count: number;
  /** Weight of each over that of the one before; 0.5 unless told. */
  readonly gain?: number;
}

// Places to a cell below which an octave is left out, and above which all of it is there.
const tooFine = 1.5;
const fineEnough = 3;

/**
 * How much of a cell's noise can be shown, so that what is too fine goes out smoothly.
 *
 * @param cell - Its millimetres.
 * @param finest - Millimetres from place to place.
 * @returns 0 to 1.
 */
export function shownShare(cell: number, finest: number): number {
  const share = (cell / finest - tooFine) / (fineEnough - tooFine);
  return share <= 0 ? 0 : share >= 1 ? 1 : fade(share);
}

/**
 * Make noise of several octaves. Of independent octaves variances add up, so all of them together
 * have a standard deviation of 1; those too fine to show are left out, and the others stay as they are.
 *
 * @param ground - Of the wall.
 * @param wish - Which noise.
 * @returns Its octaves.
 */
export function listOctaves(ground: NoiseGround, wish: OctavesWish): readonly NoiseOctave[] {
  const { id, cell, tall = 1, count, gain = 0.5 } = wish;
  const weights = Array.from({ length: count }, (_, i) => gain ** i);
  const all = Math.sqrt(weights.reduce((sum, weight) => sum + weight * weight, 0));
  return weights.flatMap((weight, i) => {
    const size = cell / 2 ** i;
    const share = shownShare(size, ground.finest);
    if (share === 0) return [];
    const x = fitCell(size, ground.period.x);
    const y = fitCell(size * tall, ground.period.y);
    const seed = hashCell(id, i, ground.seed);
    return [
      {
        cell: { x: x.cell, y: y.cell },
        wrap: { x: x.wrap, y: y.wrap },
        seed,
        weight: (weight * share) / all,
      },
    ];
  });
}

// A whole number of cells to what comes round.
function fitCell(cell: number, period: number): { readonly cell: number; readonly wrap: number } {
  if (period === 0) return { cell, wrap: 0 };
  const wrap = Math.max(1, Math.round(period / cell));
  return { cell: period / wrap, wrap };
}

/** Gives a row of noise so many mm down, in an array that is used again. */
export type NoiseRows = (y: number) => Float32Array;

/**
 * Ready noise for row after row.
 *
 * @param octaves - Which: their sum.
 * @param run - Which places of each row.
 * @returns Its rows.
 */
export function createRows(octaves: readonly NoiseOctave[], run: NoiseRun): NoiseRows {
  const adders = octaves.map((octave) => createNoise(octave, run));
  const out = new Float32Array(run.count);
  return (y) => {
    out.fill(0);
    for (const add of adders) add(y, out);
    return out;
  };
}
