import { fitPlane } from '../numeric/fit-plane.js';
import { type Pattern, toPattern } from './bond-pattern.js';
import type { BondFit } from './fit-bond.js';
import type { CourseBands } from './fold-courses.js';
import { fineness, type Lay, layAll, meanAgreement, windowLength } from './lay-bond.js';

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
