import type { Pattern } from './bond-pattern.js';
import type { CourseBands } from './fold-courses.js';

/** Stretchers in a window: few, so that a wall that wanders does not lose count. */
export const windowLength = 8;
/** Bins in a stretcher. */
export const fineness = 48;

// Part of the bands in which a bond is laid by itself.
interface Window {
  /** Course of the bands, from 0. */
  readonly firstCourse: number;
  /** How many. */
  readonly courses: number;
  /** First sample along the courses. */
  readonly from: number;
  /** One past the last. */
  readonly to: number;
}

// Windows of about twelve courses and eight stretchers: a wall is seldom truer than that.
function listWindows(bands: CourseBands, span: number): Window[] {
  const down = Math.max(1, Math.round(bands.courses / 12));
  const across = Math.max(1, Math.floor(bands.length / span));
  const windows: Window[] = [];
  for (let v = 0; v < down; v++) {
    const firstCourse = Math.round((v * bands.courses) / down);
    const courses = Math.round(((v + 1) * bands.courses) / down) - firstCourse;
    for (let u = 0; u < across; u++) {
      const from = Math.round((u * bands.length) / across);
      const to = Math.round(((u + 1) * bands.length) / across);
      windows.push({ firstCourse, courses, from, to });
    }
  }
  return windows;
}

/** Perpends of one window, each course by itself, over one repeat. */
interface Folded {
  /** A row of bins for each course of the window: the perpends, less their mean over the window. */
  readonly sums: Float64Array;
  readonly bins: number;
  /** Deviation of the samples. */
  readonly spread: number;
  /** Samples that show. */
  readonly samples: number;
}

// Sum the perpends of each course over the repeat; a tooth is three bins wide.
function foldWindow(bands: CourseBands, window: Window, period: number, bins: number): Folded {
  const { line, seen } = bands;
  const raw = new Float64Array(window.courses * bins);
  const counts = new Float64Array(window.courses * bins);
  const advance = bins / period;
  const begin = ((window.from / period) % 1) * bins;
  let squares = 0;
  for (let k = 0; k < window.courses; k++) {
    const row = k * bins;
    const course = (window.firstCourse + k) * bands.length;
    let phase = begin;
    for (let i = course + window.from; i < course + window.to; i++) {
      const value = line[i]!;
      const bin = row + (phase | 0);
      raw[bin] = raw[bin]! + value;
      counts[bin] = counts[bin]! + seen[i]!;
      squares += value * value;
      phase += advance;
      if (phase >= bins) phase -= bins;
    }
  }
  let total = 0;
  let samples = 0;
  for (let b = 0; b < raw.length; b++) {
    total += raw[b]!;
    samples += counts[b]!;
  }
  const mean = total / Math.max(1, samples);
  for (let b = 0; b < raw.length; b++) raw[b] = raw[b]! - mean * counts[b]!;
  const sums = new Float64Array(window.courses * bins);
  for (let row = 0; row < raw.length; row += bins) {
    for (let b = 0; b < bins; b++) {
      sums[row + b] =
        raw[row + ((b + bins - 1) % bins)]! + raw[row + b]! + raw[row + ((b + 1) % bins)]!;
    }
  }
  const spread = Math.sqrt(Math.max(1e-12, squares / Math.max(1, samples) - mean * mean));
  return { sums, bins, spread, samples };
}

// Sum the courses of a window that a bond of so many courses does not tell apart.
function gatherCourses({ sums, bins }: Folded, firstCourse: number, cycle: number): Float64Array {
  const out = new Float64Array(cycle * bins);
  const courses = sums.length / bins;
  for (let k = 0; k < courses; k++) {
    const to = ((firstCourse + k) % cycle) * bins;
    for (let b = 0; b < bins; b++) out[to + b] = out[to + b]! + sums[k * bins + b]!;
  }
  return out;
}

/** How a bond lies in one window: which of its courses comes first, and where its repeat starts. */
export interface Lay {
  /** Where. */
  readonly window: Window;
  /** Course of the bands, modulo those of the bond, that holds the bond's first. */
  readonly turn: number;
  /** Fraction of the repeat. */
  readonly start: number;
  /** -1 to 1: correlation of the perpends it foretells with those that show. */
  readonly agreement: number;
  /** Samples that show in the window. */
  readonly samples: number;
}

// Bins of a bond's perpends, course by course.
type Teeth = readonly Int32Array[];

const toTeeth = (pattern: Pattern, bins: number): Teeth =>
  pattern.perpends.map((places) => Int32Array.from(places, (place) => Math.round(place * bins)));

// Perpends where the bond foretells them, with course `turn` as its first.
function sumAt(sums: Float64Array, teeth: Teeth, turn: number, shift: number): number {
  const cycle = teeth.length;
  const bins = sums.length / cycle;
  let sum = 0;
  for (let k = 0; k < cycle; k++) {
    const row = ((k + turn) % cycle) * bins;
    const course = teeth[k]!;
    for (const tooth of course) {
      const at = tooth + shift;
      sum += sums[row + (at < bins ? at : at - bins)]!;
    }
  }
  return sum;
}

// The lay with the most perpends where the bond foretells them, whichever course comes first.
function layBond(folded: Folded, window: Window, pattern: Pattern): Lay {
  const { bins, spread, samples } = folded;
  const cycle = pattern.perpends.length;
  const sums = gatherCourses(folded, window.firstCourse, cycle);
  const teeth = toTeeth(pattern, bins);
  let best = -Infinity;
  let turn = 0;
  let near = 0;
  // A tooth is three bins wide: every other place tells which is best, but for one bin.
  for (let t = 0; t < cycle; t++) {
    for (let shift = 0; shift < bins; shift += 2) {
      const sum = sumAt(sums, teeth, t, shift);
      if (sum > best) [best, turn, near] = [sum, t, shift];
    }
  }
  let start = near;
  for (const shift of [(near + 1) % bins, (near + bins - 1) % bins]) {
    const sum = sumAt(sums, teeth, turn, shift);
    if (sum > best) [best, start] = [sum, shift];
  }
  // Correlation of a row of ones and noughts with the samples.
  const share = (3 * pattern.density) / bins;
  const above = best / (Math.max(1, samples) * share);
  const agreement = (Math.sqrt(share / (1 - share)) * above) / spread;
  return { window, turn, start: start / bins, agreement, samples };
}

/** Windows of which less than this share shows say nothing. */
const leastShown = 0.3;

/**
 * Lay bonds of one repeat in every window by itself.
 *
 * @param bands - Perpends by course.
 * @param patterns - The bonds', all with the same repeat.
 * @param stretcher - A stretcher with its joint, in samples.
 * @param span - Width of a window, in samples.
 * @returns For each bond, how it lies in each window that shows.
 */
export function layEach(
  bands: CourseBands,
  patterns: readonly Pattern[],
  stretcher: number,
  span: number,
): Lay[][] {
  const repeat = patterns[0]?.repeat ?? 1;
  const lays: Lay[][] = patterns.map(() => []);
  for (const window of listWindows(bands, span)) {
    const folded = foldWindow(bands, window, stretcher * repeat, Math.round(fineness * repeat));
    if (folded.samples < leastShown * window.courses * (window.to - window.from)) continue;
    for (const [i, pattern] of patterns.entries()) lays[i]!.push(layBond(folded, window, pattern));
  }
  return lays;
}

/**
 * Lay a bond in every window by itself.
 *
 * @param bands - Perpends by course.
 * @param pattern - The bond's.
 * @param stretcher - A stretcher with its joint, in samples.
 * @param span - Width of a window, in samples.
 * @returns How it lies in each window that shows.
 */
export function layAll(
  bands: CourseBands,
  pattern: Pattern,
  stretcher: number,
  span: number,
): Lay[] {
  return layEach(bands, [pattern], stretcher, span)[0]!;
}

/**
 * Say how well a bond agrees over all windows.
 *
 * @param lays - How it lies in each.
 * @returns -1 to 1.
 */
export function meanAgreement(lays: readonly Lay[]): number {
  let sum = 0;
  let samples = 0;
  for (const lay of lays) {
    sum += lay.agreement * lay.samples;
    samples += lay.samples;
  }
  return samples > 0 ? sum / samples : -1;
}
