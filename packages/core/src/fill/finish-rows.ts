import type { Raster } from '../raster/raster.js';
import { roundColours } from '../raster/round-colours.js';
import type { FinishRun, RowFinish } from '../raster/row-finish.js';
import type { RowSource } from '../raster/row-source.js';
import type { Dpi } from '../units/units.js';
import { copyRows, type PageWindow } from './copy-rows.js';
import { encodeColours } from './encode-tile.js';

/** What of a wall is shown. */
export interface WallWindow extends PageWindow {
  /** Whether nothing is done to its rows: they may then come as bytes, rounded as they were made. */
  readonly bare?: boolean;
}

/**
 * Makes the rows of a wall in place of a tile's copies: RGBRGB…, 0 to 1 as encoded in sRGB, not yet rounded, each
 * in one buffer that is written anew for the next, so that it may be changed. Of pieces one under the other
 * it is told which, from 0.
 */
export type WallRows = (page: WallWindow, piece: number) => Iterable<Float32Array | Uint8Array>;

/** What lies under finishes. */
export interface Ground {
  /** Columns after which each row comes again; Infinity where none does. */
  readonly across: number;
  /** How many pieces of so many rows differ, 1 or more, before the first comes again; Infinity where it does not. */
  readonly different: (rows: number) => number;
  /** Its rows. */
  readonly rows: WallRows;
}

/**
 * Lay a tile as ground. Of pieces one under the other each shows what follows of it, until its rows are used up.
 *
 * @param tile - Repeats every `width` by `height` pixels.
 * @returns It.
 */
export function tileGround(tile: Raster): Ground {
  const colours = encodeColours(tile);
  return {
    across: tile.width,
    different: (rows) => Math.max(1, Math.floor(tile.height / rows)),
    rows: (page, piece) => copyRows(colours, { ...page, top: page.top + piece * page.height }),
  };
}

/**
 * Take the rows of a wall as ground, no two stretches of which are alike.
 *
 * @param rows - What makes them.
 * @returns It.
 */
export function wallGround(rows: WallRows): Ground {
  return { across: Infinity, different: () => Infinity, rows };
}

/** A page of pieces, one under the other, all finished alike. */
export interface FinishedPage extends PageWindow {
  /** Of the printer, or null for none. */
  readonly dpi: Dpi | null;
  /** Rows of a piece. */
  readonly piece: number;
  /** White rows between two pieces. */
  readonly gap: number;
}

/**
 * Finish the rows of a page as they are made: each finish changes what those before it left, and colours are
 * rounded to bytes once, at the end.
 *
 * @param ground - What lies under them.
 * @param page - What is shown of it.
 * @param finishes - What is done to each row, in this order. Rows and columns are those of a piece.
 * @returns Its rows, which repeat where the ground does.
 */
export function finishRows(
  ground: Ground,
  page: FinishedPage,
  finishes: readonly RowFinish[],
): RowSource {
  const { width, height, dpi, piece, gap } = page;
  const period = (piece + gap) * ground.different(piece);
  return {
    width,
    height,
    dpi,
    ...(period < height && { period }),
    ...(ground.across === Infinity && { isVaried: true }),
    rows: () => makeRows(ground, page, finishes),
  };
}

function* makeRows(
  ground: Ground,
  { width, height, left, top, piece, gap }: FinishedPage,
  finishes: readonly RowFinish[],
): Generator<Uint8Array> {
  const row = new Uint8Array(3 * width);
  const different = ground.different(piece);
  const pieces = Math.ceil(height / (piece + gap));
  const bare = finishes.length === 0;
  for (let number = 0; number < pieces; number++) {
    if (number > 0) {
      row.fill(255);
      for (let y = 0; y < gap; y++) yield row;
    }
    let y = 0;
    const window = { width, height: piece, left, top, bare };
    for (const colours of ground.rows(window, number % different)) {
      if (colours instanceof Uint8Array) {
        yield colours;
        continue;
      }
      for (const { from, to, even } of runsOf(finishes, width, y)) {
        const count = even ? Math.min(to - from, ground.across) : to - from;
        const run = colours.subarray(3 * from, 3 * (from + count));
        for (const finish of finishes) finish.change(run, y, from);
        const bytes = row.subarray(3 * from, 3 * to);
        roundColours(run, bytes);
        // What stands is copied on to the end of the run.
        for (let done = run.length; done < bytes.length; done *= 2) bytes.copyWithin(done, 0, done);
      }
      yield row;
      y++;
    }
  }
}

// Within each of them every finish has one run.
function runsOf(finishes: readonly RowFinish[], width: number, y: number): readonly FinishRun[] {
  const [first = [{ from: 0, to: width, even: true }], ...others] = finishes.map(({ runs }) =>
    runs(y),
  );
  return others.reduce(cutRuns, first);
}

function cutRuns(some: readonly FinishRun[], others: readonly FinishRun[]): readonly FinishRun[] {
  const cut: FinishRun[] = [];
  let at = 0;
  for (const { from, to, even } of some) {
    for (let done = from; done < to;) {
      const other = others[at];
      const end = Math.min(to, other?.to ?? to);
      cut.push({ from: done, to: end, even: even && other?.even !== false });
      if (end === other?.to) at++;
      done = end;
    }
  }
  return cut;
}
