import { createRaster, cropRaster, type Raster } from '@gaugerod/core';
import { judgeSteps, type WallTruth } from '@gaugerod/fixtures';
import type { MendedWall } from './mend-wall.js';

/** Where a tile was joined: places along an axis from its wrap, some of them before it. */
export interface Band {
  readonly axis: 'x' | 'y';
  readonly from: number;
  readonly to: number;
}

/**
 * Judge the steps where a tile was joined.
 *
 * @param wall - The tile, and what it was made of.
 * @param band - Where it was joined.
 * @returns 1 is the border of what is usual at the same phase of the wall's lattice.
 */
export function seamSteps(wall: MendedWall, band: Band): number {
  const { even, tile, truth } = wall;
  const { axis, from, to } = band;
  const [length, period] =
    axis === 'x' ? [even.width, tile.raster.width] : [even.height, tile.raster.height];
  const start = tile.start[axis];
  const places = listFrom(from, to).map((at) => {
    const ending = start + period + at;
    return { at, phase: ending < length ? ending : start + at };
  });
  const usual = { raster: even, period: repeatOf(truth, axis) };
  return judgeSteps({ raster: tile.raster, wraps: true, places }, usual, axis);
}

// Of lines laid together across x every course counts: what they show comes again after a bond repeat.
function repeatOf(truth: WallTruth, axis: 'x' | 'y'): number {
  return axis === 'x' ? truth.repeat.x : truth.coursePx;
}

/** What may be wrong at a line in the middle of a band. */
export interface Fault {
  /** Pixels across the axis by which what follows is moved. */
  readonly shift?: number;
  /** By what its light is multiplied. */
  readonly gain?: number;
  /** Share of the picture by which it comes from elsewhere along the axis. */
  readonly away?: number;
}

/**
 * Judge the steps of a band as wide where nothing was joined, or where a fault was made: what the
 * judgement by {@link seamSteps} is worth.
 *
 * @param wall - Of it, the picture.
 * @param band - As wide as this.
 * @param fault - What was made.
 * @param share - Where the band begins, of the room there is.
 * @returns As for that.
 */
export function plantedSteps(wall: MendedWall, band: Band, fault: Fault, share: number): number {
  const { even, truth } = wall;
  const { axis, from, to } = band;
  const width = to - from;
  const length = axis === 'x' ? even.width : even.height;
  const first = Math.max(edge, Math.round(share * (length - width)));
  const raster = plant(even, axis, { ...fault, from: first + (width >> 1) });
  const places = listFrom(first, first + width).map((at) => ({ at, phase: at }));
  const except = { from: first - edge, to: first + width + edge };
  const usual = { raster: even, period: repeatOf(truth, axis), except };
  return judgeSteps({ raster, wraps: false, places }, usual, axis);
}

// Lines beside a band that its own lines are laid together with.
const edge = 8;

function plant(
  raster: Raster,
  axis: 'x' | 'y',
  { from, shift = 0, gain = 1, away = 0 }: Fault & { readonly from: number },
): Raster {
  const { width, height } = raster;
  const [x, y] =
    axis === 'x' ? [Math.round(away * width), shift] : [shift, Math.round(away * height)];
  const out = createRaster(width, height);
  for (let channel = 0; channel < 3; channel++) {
    const plane = raster.planes[channel]!;
    const to = out.planes[channel]!;
    for (let at = 0; at < plane.length; at++) {
      const [column, row] = [at % width, Math.floor(at / width)];
      const isAfter = (axis === 'x' ? column : row) >= from;
      const there = ((row + y) % height) * width + ((column + x) % width);
      to[at] = isAfter ? gain * plane[there]! : plane[at]!;
    }
  }
  return out;
}

function listFrom(first: number, end: number): number[] {
  return Array.from({ length: end - first }, (_, i) => first + i);
}

/** Contrast along an axis from line to line, root mean square. */
export interface BandContrast {
  /** Where a tile was joined, over the mean of the two pieces it was joined of. */
  readonly overMean: number;
  /** Over the lower of the two, and over the higher: a mix of both lies between them. */
  readonly overLower: number;
  readonly overHigher: number;
}

/**
 * Compare the contrast where a tile was joined with that of the two pieces it was joined of.
 *
 * @param wall - The tile, and what it was made of.
 * @param band - Where it was joined.
 * @returns 1 where nothing was lost or gained.
 */
export function bandContrast(wall: MendedWall, band: Band): BandContrast {
  const { even, tile } = wall;
  const { axis, from, to } = band;
  const period = axis === 'x' ? tile.raster.width : tile.raster.height;
  const ours = squaresOf(tile.raster, axis, true);
  // Only what lies beside the band in the tile: elsewhere the wall may look otherwise.
  const across = axis === 'x' ? 'y' : 'x';
  const kept = { x: 0, y: 0, width: even.width, height: even.height };
  const size = axis === 'x' ? 'height' : 'width';
  kept[across] = tile.start[across];
  kept[size] = Math.min(tile.raster[size], even[size] - tile.start[across]);
  const theirs = squaresOf(cropRaster(even, kept), axis, false);
  let [joined, endings, beginnings] = [0, 0, 0];
  for (let place = from; place < to; place++) {
    const start = tile.start[axis] + place;
    // Past the picture's edge there is but one piece.
    const ending = theirs[start + period] ?? theirs[start] ?? 0;
    const beginning = theirs[start] ?? ending;
    joined += ours[(place + period) % period]!;
    endings += ending > 0 ? ending : beginning;
    beginnings += beginning > 0 ? beginning : ending;
  }
  const over = (squares: number): number => Math.sqrt(joined / squares);
  return {
    overMean: over((endings + beginnings) / 2),
    overLower: over(Math.min(endings, beginnings)),
    overHigher: over(Math.max(endings, beginnings)),
  };
}

// Steps from each place along an axis to the place before it, squared, around the end; in logarithms, so
// that evened light makes no difference.
function squaresOf(
  { width, height, planes }: Raster,
  axis: 'x' | 'y',
  wraps: boolean,
): Float64Array {
  const logs = planes[1].map((light) => Math.log(Math.max(0, light) + 0.01));
  const [length, across, along, next] =
    axis === 'x' ? [width, height, 1, width] : [height, width, width, 1];
  const squares = new Float64Array(length);
  for (let place = wraps ? 0 : 1; place < length; place++) {
    const before = (place + length - 1) % length;
    for (let line = 0; line < across; line++) {
      squares[place]! +=
        (logs[place * along + line * next]! - logs[before * along + line * next]!) ** 2;
    }
  }
  return squares;
}
