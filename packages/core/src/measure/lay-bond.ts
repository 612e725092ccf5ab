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

interface Folded {
  /** A row of bins for each course of the bond. */
  readonly sums: Float64Array;
  readonly bins: number;
  readonly total: number;
  readonly squares: number;
  readonly samples: number;
}

// Sum the perpends of every `cycle`th course over the repeat; a tooth is three bins wide.
function foldWindow(
  bands: CourseBands,
  window: Window,
  pattern: Pattern,
  stretcher: number,
): Folded {
  const cycle = pattern.perpends.length;
  const bins = Math.round(fineness * pattern.repeat);
  const period = stretcher * pattern.repeat;
  const raw = new Float64Array(cycle * bins);
  const advance = bins / period;
  let total = 0;
  let squares = 0;
  for (let k = 0; k < window.courses; k++) {
    const row = ((window.firstCourse + k) % cycle) * bins;
    const course = (window.firstCourse + k) * bands.length;
    let phase = ((window.from / period) % 1) * bins;
    for (let i = window.from; i < window.to; i++) {
      const value = bands.line[course + i]!;
      raw[row + Math.floor(phase)] = raw[row + Math.floor(phase)]! + value;
      total += value;
      squares += value * value;
      phase += advance;
      if (phase >= bins) phase -= bins;
    }
  }
  const sums = new Float64Array(cycle * bins);
  for (let row = 0; row < raw.length; row += bins) {
    for (let b = 0; b < bins; b++) {
      sums[row + b] =
        raw[row + ((b + bins - 1) % bins)]! + raw[row + b]! + raw[row + ((b + 1) % bins)]!;
    }
  }
  return { sums, bins, total, squares, samples: window.courses * (window.to - window.from) };
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
}

// The lay with the most perpends where the bond foretells them, whichever course comes first.
function layBond(bands: CourseBands, window: Window, pattern: Pattern, stretcher: number): Lay {
  const folded = foldWindow(bands, window, pattern, stretcher);
  const { sums, bins, total, squares, samples } = folded;
  const cycle = pattern.perpends.length;
  const teeth = pattern.perpends.map((places) => places.map((place) => Math.round(place * bins)));
  let best = -Infinity;
  let turn = 0;
  let start = 0;
  for (let t = 0; t < cycle; t++) {
    for (let shift = 0; shift < bins; shift++) {
      let sum = 0;
      for (let k = 0; k < cycle; k++) {
        const row = ((k + t) % cycle) * bins;
        const course = teeth[k]!;
        for (const tooth of course) sum += sums[row + ((tooth + shift) % bins)]!;
      }
      if (sum > best) {
        best = sum;
        turn = t;
        start = shift / bins;
      }
    }
  }
  // Correlation of a row of ones and noughts with the samples.
  const share = (3 * pattern.density) / bins;
  const mean = total / samples;
  const spread = Math.sqrt(Math.max(1e-12, squares / samples - mean * mean));
  const on = best / (samples * share);
  const agreement = (Math.sqrt(share / (1 - share)) * (on - mean)) / spread;
  return { window, turn, start, agreement };
}

/**
 * Lay a bond in every window by itself.
 *
 * @param bands - Perpends by course.
 * @param pattern - The bond's.
 * @param stretcher - A stretcher with its joint, in samples.
 * @param span - Width of a window, in samples.
 * @returns How it lies in each.
 */
export function layAll(
  bands: CourseBands,
  pattern: Pattern,
  stretcher: number,
  span: number,
): Lay[] {
  return listWindows(bands, span).map((window) => layBond(bands, window, pattern, stretcher));
}

/**
 * Say how well a bond agrees over all windows.
 *
 * @param lays - How it lies in each.
 * @returns -1 to 1.
 */
export function meanAgreement(lays: readonly Lay[]): number {
  return lays.reduce((sum, lay) => sum + lay.agreement, 0) / lays.length;
}
