import { toLab } from '../../colour/lab.js';
import { median } from '../../numeric/median.js';
import { shorterWay } from '../../numeric/shorter-way.js';
import type { Raster } from '../../raster/raster.js';
import { resampleRaster } from '../../raster/resample-raster.js';
import { boxMeans, type BoxSums, sumBoxes } from './box-means.js';
import { findPeaks } from './find-peaks.js';
import { fitTail, type Tail } from './fit-tail.js';
import { type Candidate, type OddPlace, toOddPlace } from './to-odd-place.js';

// Looked at so small: a brick of a few pixels, a few hundred bricks.
const longSide = 256;
// Boxes from this many pixels high, each half as large again, up to this share of the picture.
const leastBox = 4;
const growth = 1.5;
const largestShare = 4;
// Columns over rows: as high as wide, a brick lying, a brick standing.
const shapes = [1, 2.6, 1 / 2.6] as const;
// What is odd is odd beside what lies around it, so many times as far.
const surround = 3;
// Of so many places, chance takes one this many scales past its logarithm in one picture of twenty, over
// all sizes, shapes and ways of being odd.
const strange = 1.3;
// Units of CIE 1976 colour difference at which the eye is caught.
const leastDifference = 6;
// More of a kind are no odd ones; a place nearly as odd is one of a kind.
const mostOfKind = 3;
const nearly = 0.7;
const most = 5;
const enough = 8192;
// Smaller than this, there is nothing to be odd among.
const leastSide = 32;

/**
 * Find what will catch the eye each time a picture repeats: a brick or a stain that differs in
 * lightness or colour from what is ordinary in the same picture, at sizes from a brick up.
 *
 * @param raster - In linear light; taken as going on around its edges.
 * @returns At most five places, the oddest first; none where all is ordinary.
 */
export function findOdd(raster: Raster): OddPlace[] {
  const { width, height } = raster;
  if (Math.min(width, height) < leastSide) return [];
  const scale = Math.min(1, longSide / Math.max(width, height));
  const small = resampleRaster(raster, {
    width: Math.max(1, Math.round(width * scale)),
    height: Math.max(1, Math.round(height * scale)),
    wrap: { x: true, y: true },
  });
  toLab(small.planes);
  const sums = small.planes.map((plane) => sumBoxes(plane, small.width, small.height));
  const found: Candidate[] = [];
  for (const box of boxesFor(small)) found.push(...findIn(sums, box));
  found.sort((a, b) => b.salience - a.salience);
  const kept: Candidate[] = [];
  const told: Candidate[] = [];
  const isTold = (one: Candidate): boolean =>
    told.some((other) => overlap(one, other, small) || isBeside(one, other, small));
  for (const one of found) {
    if (kept.length === most || isTold(one)) continue;
    // What lies over the wrap is one place, and is shown by the part of it that is odder.
    const shown = isInside(one, small)
      ? one
      : found.find((part) => isInside(part, small) && overlap(part, one, small) && !isTold(part));
    told.push(one, ...(shown === undefined ? [] : [shown]));
    if (shown !== undefined) kept.push(shown);
  }
  const times = { x: width / small.width, y: height / small.height };
  return kept.map((one) => toOddPlace(one, times));
}

interface Box {
  readonly columns: number;
  readonly rows: number;
}

function boxesFor({ width, height }: Raster): Box[] {
  const boxes: Box[] = [];
  const largest = Math.min(width, height) / largestShare;
  for (let side = leastBox; side <= largest; side *= growth) {
    for (const shape of shapes) {
      const columns = Math.round(shape >= 1 ? side * shape : side);
      const rows = Math.round(shape >= 1 ? side : side / shape);
      if (columns <= width / largestShare && rows <= height / largestShare) {
        boxes.push({ columns, rows });
      }
    }
  }
  return boxes;
}

function findIn(sums: readonly BoxSums[], box: Box): Candidate[] {
  const [lightness, a, b] = sums.map((plane) => settle(beside(plane, box)));
  if (lightness === undefined || a === undefined || b === undefined) return [];
  const { width } = sums[0]!;
  // What is darker is held against what is darker: bricks seldom differ as much the other way.
  const ways = [
    lightness.map((value) => -value),
    lightness,
    a.map((value, at) => Math.hypot(value, b[at]!)),
  ];
  return ways.flatMap((values) =>
    findStrange(values, width, box).map(({ at, salience }) => ({
      x: (at % width) - (box.columns >> 1),
      y: Math.floor(at / width) - (box.rows >> 1),
      ...box,
      salience,
      difference: [lightness[at]!, a[at]!, b[at]!] as const,
    })),
  );
}

// What meets at the edges may not belong together, which is another matter.
function isInside({ x, y, columns, rows }: Candidate, { width, height }: Raster): boolean {
  return x >= 0 && y >= 0 && x + columns <= width && y + rows <= height;
}

// Means of all boxes, less those of what lies around them.
function beside(sums: BoxSums, { columns, rows }: Box): Float32Array {
  const { width, height } = sums;
  const out = boxMeans(sums, columns, rows, new Float32Array(width * height));
  const around = boxMeans(
    sums,
    Math.min(width, surround * columns),
    Math.min(height, surround * rows),
    new Float32Array(width * height),
  );
  for (let i = 0; i < out.length; i++) out[i] = out[i]! - around[i]!;
  return out;
}

// Take the middle off, in place.
function settle(plane: Float32Array): Float32Array {
  const middle = median(sampled(plane));
  for (let i = 0; i < plane.length; i++) plane[i] = plane[i]! - middle;
  return plane;
}

function sampled(plane: Float32Array): Float64Array {
  const every = Math.max(1, Math.floor(plane.length / enough));
  const some = new Float64Array(Math.floor(plane.length / every));
  for (let i = 0; i < some.length; i++) some[i] = plane[i * every]!;
  return some;
}

interface Strange {
  readonly at: number;
  readonly salience: number;
}

// Peaks farther out than the tail of all the others lets chance take one.
function findStrange(values: Float32Array, width: number, box: Box): Strange[] {
  const peaks = findPeaks(values, width, box);
  const heights = Float64Array.from(peaks, (at) => values[at]!);
  const tail = fitTail(heights);
  if (tail === null) return [];
  const isFew = (at: number): boolean =>
    (heights[mostOfKind] ?? 0) < Math.max(leastDifference, nearly * values[at]!);
  return peaks
    .slice(0, mostOfKind)
    .map((at) => ({ at, salience: strangeness(values[at]!, tail) }))
    .filter(({ at, salience }) => salience > 1 && values[at]! >= leastDifference && isFew(at));
}

function strangeness(height: number, { from, scale, count }: Tail): number {
  return (height - from) / (scale * (Math.log(count) + strange));
}

// What lies around a dark place is light beside it.
function isBeside(
  one: Candidate,
  other: Candidate,
  size: Pick<Raster, 'width' | 'height'>,
): boolean {
  const alike = one.difference.reduce((sum, part, at) => sum + part * other.difference[at]!, 0);
  return alike < 0 && overlap(enlarged(one), other, size);
}

function enlarged(one: Candidate): Candidate {
  const columns = surround * one.columns;
  const rows = surround * one.rows;
  const x = one.x - (columns - one.columns) / 2;
  return { ...one, x, y: one.y - (rows - one.rows) / 2, columns, rows };
}

function overlap(
  one: Candidate,
  other: Candidate,
  { width, height }: { readonly width: number; readonly height: number },
): boolean {
  const across = shorterWay(one.x + one.columns / 2 - other.x - other.columns / 2, width);
  const down = shorterWay(one.y + one.rows / 2 - other.y - other.rows / 2, height);
  return (
    Math.abs(across) < (one.columns + other.columns) / 2 &&
    Math.abs(down) < (one.rows + other.rows) / 2
  );
}
