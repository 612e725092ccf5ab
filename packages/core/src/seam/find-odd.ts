import { toLab } from '../colour/lab.js';
import { median } from '../numeric/median.js';
import type { Raster } from '../raster/raster.js';
import { resampleRaster } from '../raster/resample-raster.js';
import { boxMeans, type BoxSums, sumBoxes } from './box-means.js';
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
// Deviations from what is ordinary, and units of CIE 1976 colour difference, at which the eye is caught.
const strange = 6;
const leastDifference = 6;
// Ordinary differences are not known to be less than this.
const leastDeviation = 0.8;
// More of a kind are no odd ones; a place nearly as odd is one of a kind.
const mostOfKind = 3;
const nearly = 0.7;
const most = 5;
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
  for (const one of found) {
    if (kept.length < most && !kept.some((other) => overlap(one, other, small))) kept.push(one);
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
  const { width, height } = sums[0]!;
  const planes = sums.map((plane) => beside(plane, box));
  const deviations = planes.map((plane) => settle(plane));
  const [l, a, b] = planes;
  if (l === undefined || a === undefined || b === undefined) return [];
  const strangeness = new Float32Array(l.length);
  const [dl = 1, da = 1, db = 1] = deviations;
  for (let i = 0; i < l.length; i++) {
    strangeness[i] = Math.sqrt((l[i]! / dl) ** 2 + (a[i]! / da) ** 2 + (b[i]! / db) ** 2);
  }
  const peaks = findPeaks(strangeness, { width, height, ...box });
  const found: Candidate[] = [];
  for (const at of peaks) {
    const difference = [l[at]!, a[at]!, b[at]!] as const;
    const apart = Math.hypot(...difference);
    const salience = Math.min(strangeness[at]! / strange, apart / leastDifference);
    if (salience < 1) continue;
    const alike = peaks.filter(
      (other) =>
        strangeness[other]! >= nearly * strangeness[at]! &&
        l[other]! * difference[0] + a[other]! * difference[1] + b[other]! * difference[2] > 0,
    );
    if (alike.length > mostOfKind) continue;
    found.push({
      x: ((at % width) - (box.columns >> 1) + width) % width,
      y: (Math.floor(at / width) - (box.rows >> 1) + height) % height,
      ...box,
      salience,
      difference,
    });
  }
  return found;
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

// Take the middle off, in place, and return the usual deviation from it (median absolute deviation,
// brought to a standard deviation of the bell curve).
function settle(plane: Float32Array): number {
  const every = Math.max(1, Math.floor(plane.length / 4096));
  const values = Float64Array.from(
    { length: Math.floor(plane.length / every) },
    (_, i) => plane[i * every]!,
  );
  const middle = median(values);
  for (let i = 0; i < plane.length; i++) plane[i] = plane[i]! - middle;
  const off = values.map((value) => Math.abs(value - middle));
  return Math.max(leastDeviation, 1.4826 * median(off));
}

// Places stranger than all within a box of them, strangest first.
function findPeaks(
  values: Float32Array,
  { width, height, columns, rows }: Box & { readonly width: number; readonly height: number },
): number[] {
  const peaks: number[] = [];
  for (let at = 0; at < values.length; at++) if (values[at]! >= nearly * strange) peaks.push(at);
  peaks.sort((a, b) => values[b]! - values[a]!);
  const taken = new Uint8Array(values.length);
  const kept: number[] = [];
  for (const at of peaks) {
    if (taken[at] === 1) continue;
    kept.push(at);
    const [x, y] = [at % width, Math.floor(at / width)];
    for (let v = -rows; v <= rows; v++) {
      const row = ((y + v + height) % height) * width;
      for (let u = -columns; u <= columns; u++) taken[row + ((x + u + width) % width)] = 1;
    }
  }
  return kept;
}

function overlap(
  one: Candidate,
  other: Candidate,
  { width, height }: { readonly width: number; readonly height: number },
): boolean {
  const across = apart(one.x + one.columns / 2, other.x + other.columns / 2, width);
  const down = apart(one.y + one.rows / 2, other.y + other.rows / 2, height);
  return across < (one.columns + other.columns) / 2 && down < (one.rows + other.rows) / 2;
}

// Around the end.
function apart(one: number, other: number, length: number): number {
  const straight = Math.abs(one - other);
  return Math.min(straight, length - straight);
}
