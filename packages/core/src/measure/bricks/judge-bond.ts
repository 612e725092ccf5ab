import { toPattern } from './bond-pattern.js';
import type { BondFit } from './fit-bond.js';
import type { CourseBands } from './fold-courses.js';
import { fineness, type Lay, layAll, windowLength } from './lay-bond.js';

/** What speaks for a bond, and what against it. */
export interface Judgement {
  /** Mean of the perpends that it foretells, 0 to 1. */
  readonly shown: number;
  /** How many it foretells in the bands. */
  readonly count: number;
  /** The share of them that shows half as well as the best do. */
  readonly met: number;
  /** Mean elsewhere. */
  readonly elsewhere: number;
  /** The perpend of the bond's repeat that shows least, as a share of `shown`, above `elsewhere`. */
  readonly leastTooth: number;
  /** The course that shows least, the same way. */
  readonly leastCourse: number;
  /** The strongest line in the repeat where no perpend should be, the same way. */
  readonly intruder: number;
}

/** Places within the repeat at which lines that should not be there are looked for, a stretcher. */
const places = 24;

/**
 * Judge a bond by each perpend of its repeat and each course alone: a bond whose perpends are also
 * those of another, such as headers in place of English bond, foretells some that are not there.
 *
 * @param bands - Perpends by course.
 * @param fit - A bond laid over them.
 * @returns What speaks for it and against it.
 */
export function judgeBond(bands: CourseBands, fit: BondFit): Judgement {
  const pattern = toPattern(fit.bond);
  const lays = layAll(bands, pattern, fit.stretcher, windowLength * fit.stretcher);
  const reach = Math.max(1, Math.round(0.03 * fit.stretcher));
  const widened = widen(bands, reach);
  const period = fit.stretcher * pattern.repeat;
  const cycle = pattern.perpends.length;
  const teeth = pattern.perpends.map((list) => list.map(() => newMean()));
  const rows = Array.from({ length: bands.courses }, newMean);
  const bins = Math.round(places * pattern.repeat);
  const others = pattern.perpends.map(() => Array.from({ length: bins }, newMean));
  const all: number[] = [];
  const rest = newMean();
  const guard = Math.max(0.1 * fit.stretcher, 2 * reach + 1) / period;
  const clear = pattern.perpends.map((list) =>
    Uint8Array.from({ length: bins }, (_, bin) =>
      list.every((place) => apart((bin + 0.5) / bins, place) >= guard) ? 1 : 0,
    ),
  );
  for (const lay of lays) {
    for (let k = 0; k < lay.window.courses; k++) {
      const row = lay.window.firstCourse + k;
      const course = (((row - lay.turn) % cycle) + cycle) % cycle;
      const list = pattern.perpends[course]!;
      const away = clear[course]!;
      const means = others[course]!;
      const start = row * bands.length;
      for (let x = lay.window.from; x < lay.window.to; x++) {
        if (bands.seen[start + x] === 0) continue;
        const bin = Math.floor(toPhase(x, lay, period, pattern.repeat) * bins) % bins;
        if (away[bin] !== 1) continue;
        const value = widened[start + x]!;
        add(means[bin]!, value);
        add(rest, value);
      }
      for (const [t, place] of list.entries()) {
        const first = (place + lay.start + 0.5 / (fineness * pattern.repeat)) * period;
        const from = Math.ceil((lay.window.from - first) / period);
        for (let x = first + from * period; x < lay.window.to; x += period) {
          const at = row * bands.length + Math.floor(x);
          if (bands.seen[at] === 0) continue;
          const value = widened[at]!;
          add(teeth[course]![t]!, value);
          add(rows[row]!, value);
          all.push(value);
        }
      }
    }
  }
  all.sort((a, b) => a - b);
  const shown = all.reduce((sum, value) => sum + value, 0) / Math.max(1, all.length);
  const elsewhere = toMean(rest);
  // Where a bond foretells too much, its perpends are of two kinds: there, and not there.
  const half = (elsewhere + (all[Math.floor(0.8 * all.length)] ?? 0)) / 2;
  const share = (mean: Mean): number => (toMean(mean) - elsewhere) / (shown - elsewhere);
  const known = (mean: Mean): boolean => mean.count > 0;
  return {
    shown,
    count: all.length,
    met: all.filter((value) => value >= half).length / all.length,
    elsewhere,
    leastTooth: Math.min(...teeth.flat().filter(known).map(share)),
    leastCourse: leastOfCourses(rows.filter(known), share),
    intruder: Math.max(
      0,
      ...others
        .flat()
        .filter((m) => m.count > 2)
        .map(share),
    ),
  };
}

// Of ten courses or more one may be lost behind a sill, or be of other work; a bond that foretells
// too much goes wrong in more of them. Of a course that hardly shows little can be said.
function leastOfCourses(rows: readonly Mean[], share: (mean: Mean) => number): number {
  const counts = rows.map(({ count }) => count).sort((a, b) => a - b);
  const usual = counts[counts.length >> 1] ?? 0;
  const shares = rows
    .filter(({ count }) => 3 * count >= usual)
    .map(share)
    .sort((a, b) => a - b);
  return shares[shares.length >= 10 ? 1 : 0] ?? 0;
}

interface Mean {
  sum: number;
  count: number;
}

const newMean = (): Mean => ({ sum: 0, count: 0 });
const toMean = ({ sum, count }: Mean): number => (count > 0 ? sum / count : 0);

function add(mean: Mean, value: number): void {
  mean.sum += value;
  mean.count++;
}

function toPhase(x: number, lay: Lay, period: number, repeat: number): number {
  const phase = (x / period - lay.start - 0.5 / (fineness * repeat)) % 1;
  return phase < 0 ? phase + 1 : phase;
}

function apart(phase: number, place: number): number {
  const d = Math.abs(phase - place);
  return Math.min(d, 1 - d);
}

// The strongest line within reach of each place along its course.
function widen({ line, length, courses }: CourseBands, reach: number): Float32Array {
  const out = new Float32Array(line.length);
  for (let k = 0; k < courses; k++) {
    const start = k * length;
    for (let i = 0; i < length; i++) {
      let most = 0;
      const end = Math.min(length - 1, i + reach);
      for (let j = Math.max(0, i - reach); j <= end; j++) most = Math.max(most, line[start + j]!);
      out[start + i] = most;
    }
  }
  return out;
}
