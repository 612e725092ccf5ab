import type { LaidAlong } from '../../raster/list-again.js';

/** A run of dots that one copy shows. */
export interface CopyRun {
  /** Where the copy begins, in the tile's dots, of any sign. */
  readonly start: number;
  /** Where the run ends: the next one begins there. */
  readonly end: number;
}

/**
 * Find the copy that shows a dot.
 *
 * @param copies - How copies are laid.
 * @param at - The dot, of any sign.
 * @returns What of it is shown.
 */
export function findRun(copies: LaidAlong, at: number): CopyRun {
  const { starts, period } = copies;
  const base = Math.floor(at / period) * period;
  let i = starts.length - 1;
  while (i > 0 && base + starts[i]! > at) i--;
  return { start: base + starts[i]!, end: base + (starts[i + 1] ?? period) };
}

/**
 * List the copies that show a stretch of dots.
 *
 * @param copies - How copies are laid.
 * @param from - The first dot, of any sign.
 * @param count - How many, 1 or more.
 * @returns Each run, in order; the first may begin before, the last end after.
 */
export function listRuns(copies: LaidAlong, from: number, count: number): readonly CopyRun[] {
  const runs: CopyRun[] = [];
  for (let at = from; at < from + count;) {
    const run = findRun(copies, at);
    runs.push(run);
    at = run.end;
  }
  return runs;
}
