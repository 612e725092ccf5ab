import { cropRaster, type Raster } from '@gaugerod/core';
import type { MendedWall } from './mend-wall.js';
import type { Band } from './seam-steps.js';

/** What a seam did to courses, joints and grain. */
export interface SeamLines {
  /** Course and brick in the tile over those of the wall, less 1: the worse of the two. */
  readonly periodOff: number;
  /**
   * Pixels by which bed joints are broken in the band beyond how they wander elsewhere, and beyond two
   * standard errors of that: few beds of rough bricks wander by chance.
   */
  readonly broken: number;
  /** The same half a tile further on, where nothing was joined: what this judge sees by chance. */
  readonly brokenElsewhere: number;
  /** By how much more than the wall the tile is like itself half a brick on. */
  readonly ghost: number;
  /** The same of a piece of the wall as large as the tile, as it was cut out. */
  readonly ghostElsewhere: number;
  /** Fine detail in the band over that of the rest of the tile, both over their sources. */
  readonly grain: number;
}

/**
 * Judge what a seam did, along the rows.
 *
 * @param wall - The tile, and what it was made of.
 * @param band - Where it was joined, along x.
 * @returns Figures that share nothing with how it was mended.
 */
export function judgeLines(wall: MendedWall, band: Band): SeamLines {
  const { even, tile, truth } = wall;
  const { raster, start } = tile;
  const courses = Math.round(raster.height / truth.coursePx);
  const halves = Math.round((2 * raster.width) / truth.brickPx);
  const lag = truth.brickPx / 2;
  const piece = cropRaster(even, {
    x: Math.min(start.x, even.width - raster.width),
    y: Math.min(start.y, even.height - raster.height),
    width: raster.width,
    height: raster.height,
  });
  const usual = likeness(rootsOf(even), even, lag);
  const offset = truth.courseOffset - start.y;
  return {
    periodOff: Math.max(
      Math.abs(raster.height / courses / truth.coursePx - 1),
      Math.abs((2 * raster.width) / halves / truth.brickPx - 1),
    ),
    broken: brokenBy(raster, { course: truth.coursePx, offset, band, from: 0 }),
    brokenElsewhere: brokenBy(raster, {
      course: truth.coursePx,
      offset,
      band,
      from: raster.width >> 1,
    }),
    ghost: likeness(rootsOf(raster), raster, lag) - usual,
    ghostElsewhere: likeness(rootsOf(piece), piece, lag) - usual,
    grain: grainIn(raster, band, true) / grainIn(raster, band, false),
  };
}

function rootsOf({ planes }: Raster): Float32Array {
  return planes[1].map((light) => Math.sqrt(Math.max(0, light)));
}

function likeness(roots: Float32Array, { width, height }: Raster, lag: number): number {
  const apart = Math.round(lag);
  let [sum, squares, products, count] = [0, 0, 0, 0];
  for (let y = 0; y < height; y++) {
    for (let x = 0; x + apart < width; x++) {
      const [here, there] = [roots[y * width + x]!, roots[y * width + x + apart]!];
      sum += here + there;
      squares += here * here + there * there;
      products += here * there;
      count++;
    }
  }
  const mean = sum / (2 * count);
  return (products / count - mean * mean) / (squares / (2 * count) - mean * mean);
}

interface BedLines {
  readonly course: number;
  readonly offset: number;
  readonly band: Band;
  // The column that is taken for the tile's first.
  readonly from: number;
}

// Beds are placed in strips a course wide; their steps from strip to strip are told by their median, for
// here and there a stain is taken for a bed.
function brokenBy(tile: Raster, { course, offset, band, from }: BedLines): number {
  const roots = rootsOf(tile);
  const strip = Math.max(6, Math.round(course));
  const count = Math.floor(tile.width / strip);
  const first = Math.ceil((0.5 * course - offset) / course);
  const steps = Array.from({ length: count }, (): number[] => []);
  for (let bed = first; offset + (bed + 0.5) * course < tile.height; bed++) {
    const at = offset + bed * course;
    const places = Array.from({ length: count }, (_, i) =>
      placeBed(roots, tile.width, { from: from + i * strip, strip, at, reach: 0.3 * course }),
    );
    for (const [i, own] of steps.entries()) {
      own.push(Math.abs(places[i]! - places[(i + count - 1) % count]!));
    }
  }
  const medians = steps.map(median);
  const inBand = (i: number): boolean => i * strip < band.to || i * strip - tile.width >= band.from;
  const joined = medians.filter((_, i) => inBand(i));
  const others = medians.filter((_, i) => !inBand(i));
  const usual = mean(others);
  const spread = Math.sqrt(mean(others.map((one) => (one - usual) ** 2)));
  const error = spread * Math.sqrt(1 / joined.length + 1 / others.length);
  return Math.max(0, mean(joined) - usual - 2 * error);
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function median(values: readonly number[]): number {
  return values.toSorted((a, b) => a - b)[values.length >> 1] ?? 0;
}

interface BedPlace {
  readonly from: number;
  readonly strip: number;
  readonly at: number;
  readonly reach: number;
}

// Centre of gravity of how far rows differ from the middle one of them.
function placeBed(roots: Float32Array, width: number, place: BedPlace): number {
  const { from, strip, at, reach } = place;
  const rows: number[] = [];
  const top = Math.ceil(at - reach - 0.5);
  for (let y = top; y + 0.5 <= at + reach; y++) {
    let sum = 0;
    for (let x = from; x < from + strip; x++) sum += roots[y * width + (x % width)]!;
    rows.push(sum / strip);
  }
  const middle = rows.toSorted((a, b) => a - b)[rows.length >> 1] ?? 0;
  let [sum, moment] = [1e-9, 0];
  for (const [i, value] of rows.entries()) {
    const weight = (value - middle) ** 2;
    sum += weight;
    moment += weight * (top + i + 0.5);
  }
  return moment / sum;
}

function grainIn({ width, height, planes }: Raster, band: Band, joined: boolean): number {
  const roots = planes[1].map((light) => Math.sqrt(Math.max(0, light)));
  const found: number[] = [];
  for (let x = 1; x + 1 < width; x++) {
    if ((x < band.to || x - width >= band.from) !== joined) continue;
    for (let y = 1; y + 1 < height; y += 2) {
      const at = y * width + x;
      const around =
        roots[at - 1]! + roots[at + 1]! + roots[at - width]! + roots[at + width]! - 4 * roots[at]!;
      found.push(Math.abs(around));
    }
  }
  found.sort((a, b) => a - b);
  return found[found.length >> 1] ?? NaN;
}
