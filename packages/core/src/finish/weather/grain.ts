import type { PerAxis } from '../../surface/measurement.js';
import { createRows, listOctaves, type NoiseGround } from './octaves.js';

/** What of the wall a page shows. */
interface GrainSpan {
  /** Dots from the datum to its first column, of any sign. */
  readonly left: number;
  /** Columns. */
  readonly width: number;
}

/** Fills a row with grain by its number from the datum. */
type GrainRows = (y: number, row: Float32Array) => void;

// Millimetres after which the table comes round, far more than the coarsest of it: a whole number of
// every octave's cells.
const period = 1536;
const wish = { id: 5, cell: 48, count: 6, gain: 0.7 };
// How much a dot's share differs from its neighbours'.
const contrast = 0.14;
// What most dots take of it: none takes more than all.
const usual = 0.84;
// Dots of a table's side at most.
const mostSide = 1200;

/** The wall that grain is of. */
type GrainGround = Pick<NoiseGround, 'seed' | 'period'>;

/** Grain of a wall, as it is looked up or reckoned. */
export interface WallGrain {
  /** The wall, whose chances come round with the table. */
  readonly ground: GrainGround;
  /** Millimetres of it to a dot. */
  readonly mmPerDot: PerAxis<number>;
  /** All of it until it comes round, row by row; null where it is reckoned for every dot. */
  readonly table: Float32Array | null;
}

/**
 * Ready the grain of a wall: how much more or less than its surroundings a dot takes of what is laid on
 * it, up to 1. It is looked up in a table, for to reckon it for every dot of a page takes longer than all else.
 *
 * @param wall - Its chances.
 * @param mmPerDot - Millimetres of the wall to a dot.
 * @returns Of it.
 */
export function readyGrain(wall: GrainGround, mmPerDot: PerAxis<number>): WallGrain {
  const { seed, period: own } = wall;
  const isTile = own.x > 0 || own.y > 0;
  // Reckoned or looked up, it comes round alike: the wall is the same at every scale.
  const ground = { seed, period: isTile ? own : { x: period, y: period } };
  const most = Math.max(period / mmPerDot.x, period / mmPerDot.y);
  const table = isTile || most > mostSide ? null : makeTable(ground, mmPerDot);
  return { ground, mmPerDot, table };
}

/**
 * Give the grain of a page.
 *
 * @param grain - Of its wall.
 * @param span - Which of its columns.
 * @returns Its rows.
 */
export function grainRows(grain: WallGrain, span: GrainSpan): GrainRows {
  const { ground, mmPerDot, table } = grain;
  if (table === null) return reckoned(ground, mmPerDot, span);
  const across = period / mmPerDot.x;
  return lookedUp(table, { across, down: period / mmPerDot.y, columns: sideOf(across) }, span);
}

interface TableSize {
  readonly across: number;
  readonly down: number;
  readonly columns: number;
}

function lookedUp(
  table: Float32Array,
  { across, down, columns }: TableSize,
  { left, width }: GrainSpan,
): GrainRows {
  const turnOf = (x: number): number => Math.floor(x / across);
  return (y, row) => {
    const base = Math.round(y - Math.floor(y / down) * down) * columns;
    for (let x = left; x < left + width;) {
      const turn = turnOf(x);
      // Where a period begins between two dots, what is nearest is taken.
      const column = Math.round(x - turn * across);
      let next = Math.floor((turn + 1) * across);
      while (turnOf(next) <= turn) next++;
      const count = Math.min(left + width, next) - x;
      row.set(table.subarray(base + column, base + column + count), x - left);
      x += count;
    }
  };
}

function sideOf(dots: number): number {
  return Math.ceil(dots) + 1;
}

function makeTable(ground: GrainGround, mmPerDot: PerAxis<number>): Float32Array {
  const [columns, rows] = [sideOf(period / mmPerDot.x), sideOf(period / mmPerDot.y)] as const;
  const rowAt = reckoned(ground, mmPerDot, { left: 0, width: columns });
  const table = new Float32Array(columns * rows);
  for (let y = 0; y < rows; y++) rowAt(y, table.subarray(y * columns, (y + 1) * columns));
  return table;
}

function reckoned(
  ground: GrainGround,
  mmPerDot: PerAxis<number>,
  { left, width }: GrainSpan,
): GrainRows {
  const finest = Math.max(mmPerDot.x, mmPerDot.y);
  const octaves = listOctaves({ ...ground, finest }, wish);
  const start = mmPerDot.x / 2;
  const rows = createRows(octaves, { first: left, count: width, step: mmPerDot.x, start });
  return (y, row) => {
    const noise = rows((y + 0.5) * mmPerDot.y);
    for (let i = 0; i < width; i++) {
      row[i] = Math.min(1, Math.max(0.4, usual + contrast * noise[i]!));
    }
  };
}
