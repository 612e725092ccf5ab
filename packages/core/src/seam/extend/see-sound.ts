import { median } from '../../numeric/median.js';
import type { Raster } from '../../raster/raster.js';
import type { Cell } from './cell.js';
import { bedAt, type Beds } from './place-beds.js';
import type { Mortar } from '../mend/see-mortar.js';

/** Where courses show both their bed joints: a soldier course, a sill or a window shows none. */
export interface SoundCourses {
  /** Course by course, for each column how many columns up to it are unsound. */
  readonly unsound: readonly Int32Array[];
}

// A bed that shows less than this share of what is usual is none.
const leastShown = 0.4;
// Bricks that over a length of several look like mortar are of other work: stone, render.
const mostInside = 0.6;
// Or whose colour over that length is so many median deviations from what is usual.
const mostOdd = 7;
const leastLengths = 24;
// Courses that a bed is looked at along, and share of a joint about its middle.
const along = 1.5;
const about = 0.25;
// Where less of the picture is sound, nobody can tell.
const leastSound = 0.3;
// A course so much of which is unsound is of other work.
const mostOther = 0.9;
// Samples over each such length from which what is usual is told.
const enough = 8;
// Square roots of light: so little is never strange.
const leastSpread = 0.004;

/**
 * Tell where courses are courses.
 *
 * @param raster - The picture, in linear light.
 * @param mortar - What in it is mortar.
 * @param beds - Where bed joints are taken to lie.
 * @returns Where both beds of a course show.
 */
export function seeSound(raster: Raster, mortar: Mortar, beds: Beds): SoundCourses {
  const { width } = mortar;
  const reach = along * beds.pitch;
  const shown = Array.from({ length: beds.count }, (_, bed) =>
    smoothed(meanAlong(mortar, beds, bed), reach),
  );
  const usual = median(joined(shown));
  const least = leastShown * usual;
  const most = mostInside * usual;
  // Half of a bed is cut away by the picture's edge: nothing is said of it.
  const edge = (bed: number): boolean => {
    const at = bedAt(beds, bed, width / 2);
    return Math.min(at, mortar.height - at) < mortar.joint;
  };
  const strange = seeStrange(raster, mortar, beds);
  const own = shown.slice(1).map((below, course) => {
    const above = shown[course]!;
    const [top, foot] = [edge(course), edge(course + 1)];
    const inside = smoothed(meanAlong(mortar, beds, course + 0.5), 3 * reach);
    const odd = strange[course]!;
    let count = 0;
    return Int32Array.from({ length: width }, (_, x) => {
      const faint = (!top && above[x]! < least) || (!foot && below[x]! < least);
      if (faint || inside[x]! > most || odd[x]! > mostOdd) count++;
      return count;
    });
  });
  const unsound = own.map((line, course) => {
    const beside = [own[course - 1], own[course + 1]].filter((other) => other !== undefined);
    // Next to what is wholly other work lies its edge.
    const near = beside.some((other) => other[width - 1]! >= mostOther * width);
    return near ? line.map((_, x) => x + 1) : line;
  });
  const lost = unsound.reduce((sum, line) => sum + (line[width - 1] ?? 0), 0);
  const sure = usual > 0 && lost <= (1 - leastSound) * width * unsound.length;
  return { unsound: sure ? unsound : unsound.map(() => new Int32Array(width)) };
}

/**
 * Tell whether a run of a course is sound.
 *
 * @param sound - Where courses are.
 * @param course - Which, from 0.
 * @param run - Its columns; past the picture's edge nothing is said.
 * @returns Whether nine columns in ten are.
 */
export function isSound(
  sound: SoundCourses,
  course: number,
  run: Pick<Cell, 'left' | 'right'>,
): boolean {
  const line = sound.unsound[course];
  if (line === undefined || line.length === 0) return true;
  const at = (x: number): number => (x < 0 ? 0 : line[Math.min(line.length - 1, Math.floor(x))]!);
  return at(run.right - 1) - at(run.left - 1) <= 0.1 * (run.right - run.left);
}

// Course by course and column by column, how far the colour over a length of several bricks lies from
// what is usual, in median deviations.
function seeStrange(raster: Raster, mortar: Mortar, beds: Beds): Float64Array[] {
  const courses = Array.from({ length: Math.max(0, beds.count - 1) }, (_, course) => course);
  const odd = courses.map(() => new Float64Array(mortar.width));
  const over = 3 * along * beds.pitch;
  // Of fewer lengths nobody can say which is usual.
  if ((mortar.width / over) * courses.length < leastLengths) return odd;
  for (const plane of raster.planes) {
    const lines = courses.map((course) => {
      const line = meanAlong({ ...mortar, likeness: plane }, beds, course + 0.5);
      for (let x = 0; x < line.length; x++) line[x] = Math.sqrt(Math.max(0, line[x]!));
      return smoothed(line, over);
    });
    const some = thinned(joined(lines), Math.max(1, Math.floor(over / enough)));
    const usual = median(some);
    const spread = median(some.map((value) => Math.abs(value - usual))) + leastSpread;
    for (const [course, line] of lines.entries()) {
      raiseTo(odd[course]!, line, { usual, spread });
    }
  }
  return odd;
}

function raiseTo(
  odd: Float64Array,
  line: Float64Array,
  { usual, spread }: { readonly usual: number; readonly spread: number },
): void {
  for (let x = 0; x < line.length; x++) {
    odd[x] = Math.max(odd[x]!, Math.abs(line[x]! - usual) / spread);
  }
}

// Along a bed, or half way between one and the next.
function meanAlong(mortar: Mortar, beds: Beds, line: number): Float64Array {
  const { width, height, likeness, joint } = mortar;
  const half = Math.max(0.5, about * joint);
  const middles = middlesAlong(beds, line, width);
  const raw = new Float64Array(width);
  for (let x = 0; x < width; x++) {
    const middle = middles[x]!;
    const first = Math.min(height - 1, Math.max(0, Math.round(middle - half)));
    const last = Math.min(height, Math.max(first + 1, Math.round(middle + half)));
    let sum = 0;
    for (let at = first * width + x, end = last * width; at < end; at += width)
      sum += likeness[at]!;
    raw[x] = sum / (last - first);
  }
  return raw;
}

function middlesAlong(beds: Beds, line: number, width: number): Float64Array {
  const bed = Math.floor(line);
  const out = new Float64Array(width);
  for (let x = 0; x < width; x++) {
    const above = bedAt(beds, bed, x + 0.5);
    out[x] = line === bed ? above : (above + bedAt(beds, bed + 1, x + 0.5)) / 2;
  }
  return out;
}

function joined(lines: readonly Float64Array[]): Float64Array {
  const all = new Float64Array(lines.reduce((sum, line) => sum + line.length, 0));
  let at = 0;
  for (const line of lines) {
    all.set(line, at);
    at += line.length;
  }
  return all;
}

// Neighbours of a smooth line tell the same.
function thinned(line: Float64Array, every: number): Float64Array {
  return Float64Array.from({ length: Math.floor(line.length / every) }, (_, i) => line[i * every]!);
}

function smoothed(line: Float64Array, over: number): Float64Array {
  const reach = Math.max(1, Math.round(over));
  const sums = new Float64Array(line.length + 1);
  for (let i = 0; i < line.length; i++) sums[i + 1] = sums[i]! + line[i]!;
  return line.map((_, x) => {
    const from = Math.max(0, x - (reach >> 1));
    const to = Math.min(line.length, from + reach);
    return (sums[to]! - sums[from]!) / (to - from);
  });
}
