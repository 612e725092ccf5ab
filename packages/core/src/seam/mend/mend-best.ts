import type { Outcome } from '../../errors/outcome.js';
import type { Warning } from '../../errors/warning.js';
import type { Raster } from '../../raster/raster.js';
import type { PerAxis } from '../../surface/measurement.js';
import { inspectSeams, type SeamInspection } from '../inspect/inspect-seams.js';
import { type MendOptions, mendTile, type Tile } from './mend-tile.js';

/** A longer tile that showed more of a seam. */
export interface LongerTile {
  /** Pixels after which it repeated. */
  readonly length: number;
  /** Of its seam. */
  readonly seamScore: number;
}

/** A tile, and how well it meets itself. */
export interface BestTile {
  /** What repeats. */
  readonly tile: Tile;
  /** How well. */
  readonly seams: SeamInspection;
  /** What it was taken instead of, along each axis; null where nothing was tried or was better. */
  readonly longer: PerAxis<LongerTile | null>;
}

// Picture is given away for a seam that is clearly less.
const clearly = 0.8;
// One repeat fewer is room enough; each try takes as long as mending.
const mostTries = 3;

/**
 * Make a picture repeat, and where a seam still shows, after fewer whole repeats of its bond: what
 * they leave over is room to join its ends in, and where they took all of it there was none.
 *
 * @param raster - As for {@link mendTile}.
 * @param options - Likewise; a period that is planned is kept to.
 * @returns The tile that shows least, no smaller than was asked.
 * @throws RangeError when an option makes no sense.
 */
export function mendBest(
  raster: Raster,
  options: MendOptions,
): Outcome<BestTile, 'too-few-repeats'> {
  const first = mendTile(raster, options);
  if (!first.ok) return first;
  let best = judge(first.value, first.warnings);
  const longer: Record<'x' | 'y', LongerTile | null> = { x: null, y: null };
  for (const axis of askedOf(options)) {
    const shorter = mendShorter(raster, { options, best, axis });
    if (shorter === null) continue;
    const { seamScore } = best.seams[axis];
    longer[axis] = { length: lengthOf(best.tile.raster, axis), seamScore };
    best = shorter;
  }
  const { tile, seams, warnings } = best;
  return { ok: true, value: { tile, seams, longer }, warnings };
}

interface Judged extends Pick<BestTile, 'tile' | 'seams'> {
  readonly warnings: readonly Warning[];
}

interface Wanted {
  readonly options: MendOptions;
  readonly best: Judged;
  readonly axis: 'x' | 'y';
}

function judge(tile: Tile, warnings: readonly Warning[]): Judged {
  return { tile, seams: inspectSeams(tile.raster), warnings };
}

function askedOf({ axis = 'both' }: MendOptions): readonly ('x' | 'y')[] {
  return axis === 'both' ? ['x', 'y'] : [axis];
}

function lengthOf({ width, height }: Raster, axis: 'x' | 'y'): number {
  return axis === 'x' ? width : height;
}

// Of a few with fewer repeats the longest that shows nothing, else what shows least; null where none is better.
function mendShorter(raster: Raster, { options, best, axis }: Wanted): Judged | null {
  if (!mayShorten({ options, best, axis })) return null;
  const { width, height } = best.tile.raster;
  let least: Judged | null = null;
  for (const length of shorterLengths(best.tile, axis, options.keep ?? 60)) {
    const period = { x: width, y: height, [axis]: length };
    const made = mendTile(raster, { ...options, period });
    if (!made.ok) continue;
    const one = judge(made.value, made.warnings);
    const most = least === null ? clearly * best.seams[axis].seamScore : scoreOf(least, axis);
    if (scoreOf(one, axis) <= most && spoilsNothing(one, best, options)) least = one;
    if (least?.seams[axis].seamless) break;
  }
  return least;
}

function mayShorten({ options, best, axis }: Wanted): boolean {
  if (best.seams[axis].seamless || options.period?.[axis] != null) return false;
  // What met itself before is left whole.
  return options.meets?.[axis] !== true || best.tile.joins[axis] !== null;
}

function shorterLengths(tile: Tile, axis: 'x' | 'y', keep: number): number[] {
  const repeats = tile.repeats[axis] ?? 1;
  const fewer = Array.from({ length: Math.max(0, repeats - 1) }, (_, i) => repeats - 1 - i);
  return fewer
    .filter((count) => (tile.keptPercent * count) / repeats >= keep)
    .slice(0, mostTries)
    .map((count) => Math.round((lengthOf(tile.raster, axis) * count) / repeats));
}

function scoreOf({ seams }: Judged, axis: 'x' | 'y'): number {
  return seams[axis].seamScore;
}

function spoilsNothing({ seams }: Judged, before: Judged, options: MendOptions): boolean {
  return askedOf(options).every(
    (axis) => seams[axis].seamless || seams[axis].seamScore <= before.seams[axis].seamScore,
  );
}
