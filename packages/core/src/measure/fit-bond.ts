import type { Bond } from '../catalogue/bonds/bond.js';
import { bonds } from '../catalogue/bonds/index.js';
import { fitPlane } from '../numeric/fit-plane.js';
import type { CourseBands } from './fold-courses.js';

/** A bond laid over the courses of a picture, and how well it agrees. */
export interface BondFit {
  /** Which. */
  readonly bond: Bond;
  /** A stretcher with its joint, in samples of the bands. */
  readonly stretcher: number;
  /** -1 to 1: correlation of the perpends it foretells with those that show. */
  readonly agreement: number;
}

/** A bond as its perpends lie: places in stretchers, course by course. */
interface Pattern {
  readonly bond: Bond;
  /** What repeats along a course, in stretchers. */
  readonly repeat: number;
  /** For each course, where its perpends lie within the repeat, as fractions of it. */
  readonly perpends: readonly (readonly number[])[];
  /** Perpends in one course's repeat, the mean over courses. */
  readonly density: number;
}

const lengthOf = { stretcher: 1, header: 0.5 } as const;

// All courses of a bond over one common repeat; a header is taken as half a stretcher.
function toPattern(bond: Bond): Pattern {
  const runs = bond.courses.map(({ run }) => run.reduce((sum, face) => sum + lengthOf[face], 0));
  const repeat = Math.max(...runs);
  const perpends = bond.courses.map(({ run, shift }, k) => {
    const places: number[] = [];
    for (let times = 0; times < Math.round(repeat / runs[k]!); times++) {
      let x = runs[k]! * (times + shift);
      for (const face of run) {
        places.push((x / repeat) % 1);
        x += lengthOf[face];
      }
    }
    return places;
  });
  const density = perpends.reduce((sum, places) => sum + places.length, 0) / perpends.length;
  return { bond, repeat, perpends, density };
}

const patterns: readonly Pattern[] = bonds.filter(({ id }) => id !== 'header').map(toPattern);
/** Bins in a stretcher. */
const fineness = 48;

interface Window {
  readonly firstCourse: number;
  readonly courses: number;
  readonly from: number;
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
interface Lay {
  readonly window: Window;
  readonly turn: number;
  /** Fraction of the repeat. */
  readonly start: number;
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

function layAll(bands: CourseBands, pattern: Pattern, stretcher: number, span: number): Lay[] {
  return listWindows(bands, span).map((window) => layBond(bands, window, pattern, stretcher));
}

function meanAgreement(lays: readonly Lay[]): number {
  return lays.reduce((sum, lay) => sum + lay.agreement, 0) / lays.length;
}

// Where the bond foretells a perpend, the highest line within an eighth of a header or so.
function collectPlaces(
  bands: CourseBands,
  pattern: Pattern,
  stretcher: number,
  lays: readonly Lay[],
): {
  u: number[];
  z: number[];
} {
  const u: number[] = [];
  const z: number[] = [];
  const period = stretcher * pattern.repeat;
  const cycle = pattern.perpends.length;
  const reach = Math.max(2, 0.06 * stretcher);
  for (const { window, turn, start } of lays) {
    const first = u.length;
    for (let k = 0; k < window.courses; k++) {
      const row = window.firstCourse + k;
      const course = (((row - turn) % cycle) + cycle) % cycle;
      for (const place of pattern.perpends[course]!) {
        const phase = (place + start + 0.5 / (fineness * pattern.repeat)) * period;
        const from = Math.ceil((window.from - phase) / period);
        for (let x = phase + from * period; x < window.to; x += period) {
          const found = peakAt(bands, row, x, reach);
          if (found === null) continue;
          u.push(x / stretcher);
          z.push(found);
        }
      }
    }
    centre(u, first);
    centre(z, first);
  }
  return { u, z };
}

function centre(values: number[], first: number): void {
  let sum = 0;
  for (let i = first; i < values.length; i++) sum += values[i]!;
  const mean = sum / Math.max(1, values.length - first);
  for (let i = first; i < values.length; i++) values[i] = values[i]! - mean;
}

function peakAt(bands: CourseBands, row: number, x: number, reach: number): number | null {
  const { line, length } = bands;
  const course = row * length;
  let best = -1;
  for (let i = Math.max(1, Math.ceil(x - reach)); i <= Math.min(length - 2, x + reach); i++) {
    if (best < 0 || line[course + i]! > line[course + best]!) best = i;
  }
  if (best < 0 || line[course + best]! < 0.2) return null;
  const a = line[course + best - 1]!;
  const b = line[course + best]!;
  const c = line[course + best + 1]!;
  const bend = a - 2 * b + c;
  return best + (bend < 0 ? Math.max(-0.5, Math.min(0.5, (0.5 * (a - c)) / bend)) : 0);
}

// Stretchers in a window: few, so that a wall that wanders does not lose count.
const windowLength = 8;

function refine(bands: CourseBands, pattern: Pattern, stretcher: number, span: number): number {
  const lays = layAll(bands, pattern, stretcher, span);
  const { u, z } = collectPlaces(bands, pattern, stretcher, lays);
  if (u.length < 6) return stretcher;
  const { b } = fitPlane({
    u: Float64Array.from(u),
    v: new Float64Array(u.length),
    z: Float64Array.from(z),
    weight: new Float64Array(u.length).fill(1),
  });
  return Math.abs(b / stretcher - 1) < 0.03 ? b : stretcher;
}

/**
 * Lay every bond of the catalogue over the courses, at every brick length, and see which foretells
 * the perpends best: it must meet those that show and miss none.
 *
 * @param bands - Perpends by course.
 * @param course - Course height in samples of the bands.
 * @returns Bonds with the length that suits each best, best first. Header bond is left out: its
 *   joints are those of stretchers half as long.
 */
export function fitBond(bands: CourseBands, course: number): BondFit[] {
  const longest = Math.min(6.6 * course, bands.length / 1.4);
  // Along low courses fine grain passes for narrow tiles.
  const narrowest = course >= 16 / bands.step ? 0.65 : 1.2;
  const fits: BondFit[] = [];
  for (const pattern of patterns) {
    if (pattern.perpends.length > bands.courses) continue;
    let best = { stretcher: 0, agreement: -1 };
    // Bonds of two faces are of bricks, which are longer than two courses; tiles may be narrow.
    const mixed = pattern.bond.courses.some(({ run }) => run.includes('header'));
    for (
      let stretcher = course * (mixed ? 1.7 : narrowest);
      stretcher < longest;
      stretcher *= 1.014
    ) {
      if (pattern.repeat * stretcher > bands.length) break;
      const lays = layAll(bands, pattern, stretcher, windowLength * stretcher);
      const agreement = meanAgreement(lays);
      if (agreement > best.agreement) best = { stretcher, agreement };
    }
    if (best.stretcher > 0) fits.push({ bond: pattern.bond, ...best });
  }
  fits.sort((a, b) => b.agreement - a.agreement);
  return fits
    .slice(0, 4)
    .map((fit) => tune(bands, fit))
    .sort((a, b) => b.agreement - a.agreement);
}

// The best length between those that were tried.
function tune(bands: CourseBands, fit: BondFit): BondFit {
  const pattern = toPattern(fit.bond);
  let best = fit;
  for (let f = -0.0105; f <= 0.0106; f += 0.003) {
    const stretcher = fit.stretcher * (1 + f);
    const agreement = meanAgreement(layAll(bands, pattern, stretcher, windowLength * stretcher));
    if (agreement > best.agreement) best = { bond: fit.bond, stretcher, agreement };
  }
  return best;
}

/**
 * Place a bond's perpends to a fraction of a sample.
 *
 * @param bands - Perpends by course.
 * @param fit - A bond that agrees with them.
 * @returns A stretcher with its joint, in samples.
 */
export function refineStretcher(bands: CourseBands, fit: BondFit): number {
  const pattern = toPattern(fit.bond);
  const near = refine(bands, pattern, fit.stretcher, windowLength * fit.stretcher);
  const apart = meanAgreement(layAll(bands, pattern, near, windowLength * near));
  const whole = meanAgreement(layAll(bands, pattern, near, bands.length));
  // Where the bond still agrees when laid in one piece, the whole width places it better.
  return whole > 0.85 * apart ? refine(bands, pattern, near, bands.length) : near;
}
