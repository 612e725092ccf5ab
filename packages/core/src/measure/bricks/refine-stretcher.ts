import { fitPlane } from '../../numeric/fit-plane.js';
import { type Pattern, toPattern } from './bond-pattern.js';
import type { BondFit } from './fit-bond.js';
import type { CourseBands } from './fold-courses.js';
import { foretellPerpends } from './foretell-perpends.js';
import { type Lay, layAll, meanAgreement, windowLength } from './lay-bond.js';
import { peakAlong } from './peak-along.js';

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
  const reach = Math.max(2, 0.06 * stretcher);
  for (const lay of lays) {
    const first = u.length;
    for (const { row, x } of foretellPerpends(lay, pattern, stretcher)) {
      const found = peakAlong(bands, row, { x, reach });
      if (found.value < 0.2) continue;
      u.push(x / stretcher);
      z.push(found.x);
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
