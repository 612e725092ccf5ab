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
 * have a standard deviation of 1. Those too coarse for what comes round are left out and the others make up for them;
 * those too fine to show are left out, and the others stay as they are.
 *
 * @param ground - Of the wall.
 * @param wish - Which noise.
 * @returns Its octaves.
 */
export function listOctaves(ground: NoiseGround, wish: OctavesWish): readonly NoiseOctave[] {
  const { id, cell, tall = 1, count, gain = 0.5 } = wish;
  const wanted = Array.from({ length: count }, (_, i) => ({
    i,
    size: cell / 2 ** i,
    weight: gain ** i,
  })).filter(({ i, size }) => i === count - 1 || !isMarked(size, ground));
  const all = Math.hypot(...wanted.map(({ weight }) => weight));
  return wanted.flatMap(({ i, size, weight }) => {
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

/**
 * Tell how much of a noise is too fine to show, so that what goes by a bar can be drawn as its mean.
 *
 * @param ground - Of the wall.
 * @param wish - Which noise.
 * @returns The standard deviation of what {@link listOctaves} leaves out as too fine, 0 to 1.
 */
export function hiddenNoise(ground: NoiseGround, wish: OctavesWish): number {
  const shown = listOctaves(ground, wish).reduce((sum, { weight }) => sum + weight * weight, 0);
  return Math.sqrt(Math.max(0, 1 - shown));
}

// A blotch that is nearly as large as what comes round would be seen again in each repeat, and where it rises there
// would be a seam.
const mostOfPeriod = 1 / 3;

function isMarked(cell: number, { period }: NoiseGround): boolean {
  const side = Math.min(period.x || Infinity, period.y || Infinity);
  return cell > mostOfPeriod * side;
}

// A whole number of cells to what comes round.
function fitCell(cell: number, period: number): { readonly cell: number; readonly wrap: number } {
  if (period === 0) return { cell, wrap: 0 };
  const wrap = Math.max(1, Math.round(period / cell));
  return { cell: period / wrap, wrap };
}

/** Some of a row's places. */
export interface PlaceSpan {
  /** The first. */
  readonly from: number;
  /** The one after the last. */
  readonly to: number;
}

/** Gives a row of noise so many mm down, in an array that is used again; of some places alone where told. */
export type NoiseRows = (y: number, span?: PlaceSpan) => Float32Array;

// Octaves whose cells are so many steps high are reckoned every few steps, and drawn straight between.
const highCell = 16;
const slowSteps = 4;

/**
 * Ready noise for row after row.
 *
 * @param octaves - Which: their sum.
 * @param run - Which places of each row.
 * @returns Its rows.
 */
export function createRows(octaves: readonly NoiseOctave[], run: NoiseRun): NoiseRows {
  // What comes round need not do so with those steps.
  const isSlow = ({ cell, wrap }: NoiseOctave): boolean =>
    wrap.y === 0 && cell.y >= highCell * run.step;
  const slow = octaves.filter(isSlow);
  const begin = slow.length === 0 ? null : createSlowRows(slow, run);
  const adders = octaves.filter((octave) => !isSlow(octave)).map((one) => createNoise(one, run));
  const out = new Float32Array(run.count);
  return (y, span = { from: 0, to: run.count }) => {
    if (begin === null) out.fill(0, span.from, span.to);
    else begin(y, span, out);
    for (const add of adders) add(y, out, span);
    return out;
  };
}

type BeginRow = (y: number, span: PlaceSpan, out: Float32Array) => void;

function createSlowRows(octaves: readonly NoiseOctave[], run: NoiseRun): BeginRow {
  const { count, step } = run;
  const adders = octaves.map((octave) => createNoise(octave, run));
  const apart = slowSteps * step;
  const all = { from: 0, to: count };
  const lay = (number: number, row: Float32Array): void => {
    row.fill(0);
    for (const add of adders) add(number * apart, row, all);
  };
  let above = new Float32Array(count);
  let below = new Float32Array(count);
  let held = NaN;
  return (y, { from, to }, out) => {
    const number = Math.floor(y / apart);
    if (number !== held) {
      if (number === held + 1) [above, below] = [below, above];
      else lay(number, above);
      lay(number + 1, below);
      held = number;
    }
    mixRows(out, { above, below, share: y / apart - number, from, to });
  };
}

interface RowsToMix extends PlaceSpan {
  readonly above: Float32Array;
  readonly below: Float32Array;
  readonly share: number;
}

function mixRows(out: Float32Array, { above, below, share, from, to }: RowsToMix): void {
  for (let i = from; i < to; i++) out[i] = above[i]! + share * (below[i]! - above[i]!);
}
