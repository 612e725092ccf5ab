import type { Raster } from '@gaugerod/core';

/** Where a tile was joined: places along an axis from its wrap, some of them before it. */
export interface Band {
  readonly axis: 'x' | 'y';
  readonly from: number;
  readonly to: number;
}

/** A tile and what it was made of. */
export interface TileAndSource {
  readonly tile: Raster;
  readonly raster: Raster;
  /** The pixel of the source, along the band's axis, that became the tile's first. */
  readonly start: number;
  readonly period: number;
}

// Steps from each place along an axis to the place before it, root mean square, around the end; in
// logarithms, so that evened light makes no difference.
function stepsOf({ width, height, planes }: Raster, axis: 'x' | 'y', wrap: boolean): Float64Array {
  const green = planes[1];
  const [length, across, along, next] =
    axis === 'x' ? [width, height, 1, width] : [height, width, width, 1];
  const steps = new Float64Array(length);
  for (let place = wrap ? 0 : 1; place < length; place++) {
    const before = (place + length - 1) % length;
    let sum = 0;
    for (let line = 0; line < across; line++) {
      const here = Math.log(Math.max(0, green[place * along + line * next]!) + 0.01);
      const there = Math.log(Math.max(0, green[before * along + line * next]!) + 0.01);
      sum += (here - there) ** 2;
    }
    steps[place] = Math.sqrt(sum / across);
  }
  return steps;
}

/**
 * Compare the largest step where a tile was joined with the largest elsewhere.
 *
 * @param tile - That repeats.
 * @param band - Where it was joined.
 * @returns Both.
 */
export function largestSteps(tile: Raster, band: Band): { band: number; elsewhere: number } {
  const steps = stepsOf(tile, band.axis, true);
  const length = steps.length;
  let most = 0;
  let elsewhere = 0;
  for (let place = 0; place < length; place++) {
    const joined = place < band.to || place - length >= band.from;
    if (joined) most = Math.max(most, steps[place]!);
    else elsewhere = Math.max(elsewhere, steps[place]!);
  }
  return { band: most, elsewhere };
}

/**
 * Tell how often as wide a band elsewhere, where nothing was joined, holds the largest step of all: what
 * the judgement by {@link largestSteps} is worth.
 *
 * @param tile - That repeats.
 * @param band - Where it was joined.
 * @param leeway - By so much a step may be larger, as a factor.
 * @returns Share of such bands in which no step is larger than elsewhere.
 */
export function stepsByChance(tile: Raster, band: Band, leeway: number): number {
  const steps = stepsOf(tile, band.axis, true);
  const width = band.to - band.from;
  const unjoined = [...steps.subarray(band.to, steps.length + band.from)];
  let [good, all] = [0, 0];
  for (let from = 0; from + width <= unjoined.length; from += Math.max(1, width >> 1)) {
    const inside = Math.max(...unjoined.slice(from, from + width));
    const others = [...unjoined.slice(0, from), ...unjoined.slice(from + width)];
    if (others.length < width) continue;
    if (inside <= leeway * Math.max(...others)) good++;
    all++;
  }
  return all === 0 ? NaN : good / all;
}

/**
 * Compare the contrast of the two pieces a tile was joined of where it was joined.
 *
 * @param made - The tile, and its source.
 * @param band - Where it was joined.
 * @returns One over the other: how much contrast differs by chance.
 */
export function piecesContrast(made: TileAndSource, band: Band): number {
  const { raster, start, period } = made;
  const theirs = stepsOf(raster, band.axis, false);
  let [endings, beginnings] = [0, 0];
  for (let place = band.from; place < band.to; place++) {
    const ending = theirs[start + period + place] ?? 0;
    const beginning = theirs[start + place] ?? 0;
    if (ending === 0 || beginning === 0) continue;
    endings += ending ** 2;
    beginnings += beginning ** 2;
  }
  return Math.sqrt(endings / beginnings);
}

/**
 * Compare the contrast where a tile was joined with that of the two pieces it was joined of.
 *
 * @param made - The tile, and its source.
 * @param band - Where it was joined.
 * @returns 1 where nothing was lost or gained.
 */
export function bandContrast(made: TileAndSource, band: Band): number {
  const { tile, raster, start, period } = made;
  const ours = stepsOf(tile, band.axis, true);
  const theirs = stepsOf(raster, band.axis, false);
  let joined = 0;
  let sources = 0;
  for (let place = band.from; place < band.to; place++) {
    // Past the source's edge there is but one piece.
    const ending = theirs[start + period + place] ?? 0;
    const beginning = theirs[start + place] ?? 0;
    if (ending === 0 && beginning === 0) continue;
    joined += ours[(place + period) % period]! ** 2;
    sources += (ending ** 2 + beginning ** 2) / (ending > 0 && beginning > 0 ? 2 : 1);
  }
  return Math.sqrt(joined / sources);
}
