import type { PerAxis } from '../../surface/measurement.js';
import { createRows, listOctaves, type NoiseGround } from './octaves.js';

/** What of the wall a page shows. */
interface GrainSpan {
  /** Dots from the datum to its first column, of any sign. */
  readonly left: number;
  /** Columns. */
  readonly width: number;
}

/** Gives a row of grain by its number from the datum, in an array that is used again. */
type GrainRows = (y: number) => Float32Array;

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

/** Gives the grain of a page. */
export type GrainOf = (span: GrainSpan) => GrainRows;

type GrainGround = Omit<NoiseGround, 'finest'>;

/**
 * Ready the grain of a wall: how much more or less than its surroundings a dot takes of what is laid on
 * it, up to 1. It is looked up in a table, for to reckon it for every dot of a page takes longer than all else.
 *
 * @param ground - The wall.
 * @param mmPerDot - Millimetres of the wall to a dot.
 * @returns What gives it.
 */
export function createGrain(ground: GrainGround, mmPerDot: PerAxis<number>): GrainOf {
  const across = period / mmPerDot.x;
  const down = period / mmPerDot.y;
  if (ground.period.x > 0 || ground.period.y > 0) {
    return (span) => reckoned(ground, mmPerDot, span);
  }
  // Reckoned or looked up, it comes round alike: the wall is the same at every scale.
  const round = { ...ground, period: { x: period, y: period } };
  if (Math.max(across, down) > mostSide) return (span) => reckoned(round, mmPerDot, span);
  const columns = sideOf(across);
  let table: Float32Array | null = null;
  return (span) =>
    lookedUp((table ??= makeTable(round, mmPerDot)), { across, down, columns }, span);
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
  const row = new Float32Array(width);
  const turnOf = (x: number): number => Math.floor(x / across);
  return (y) => {
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
    return row;
  };
}

function sideOf(dots: number): number {
  return Math.ceil(dots) + 1;
}

function makeTable(ground: GrainGround, mmPerDot: PerAxis<number>): Float32Array {
  const [columns, rows] = [sideOf(period / mmPerDot.x), sideOf(period / mmPerDot.y)] as const;
  const rowAt = reckoned(ground, mmPerDot, { left: 0, width: columns });
  const table = new Float32Array(columns * rows);
  for (let y = 0; y < rows; y++) table.set(rowAt(y), y * columns);
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
  return (y) => {
    const row = rows((y + 0.5) * mmPerDot.y);
    for (let i = 0; i < width; i++) row[i] = Math.min(1, Math.max(0.4, usual + contrast * row[i]!));
    return row;
  };
}
