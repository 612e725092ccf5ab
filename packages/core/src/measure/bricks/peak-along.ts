import type { CourseBands } from './fold-courses.js';

/** About where a line lies, in samples. */
interface Near {
  readonly x: number;
  /** How far to look to either side. */
  readonly reach: number;
}

/**
 * Find the highest line near a place along a course.
 *
 * @param bands - Perpends by course.
 * @param row - Which course.
 * @param near - About where.
 * @returns Its place to a fraction of a sample, and how high it is: 0 where there is none.
 */
export function peakAlong(
  bands: CourseBands,
  row: number,
  near: Near,
): { readonly x: number; readonly value: number } {
  const { line, length } = bands;
  const { x, reach } = near;
  const course = row * length;
  let best = -1;
  for (let i = Math.max(1, Math.ceil(x - reach)); i <= Math.min(length - 2, x + reach); i++) {
    if (best < 0 || line[course + i]! > line[course + best]!) best = i;
  }
  if (best < 0) return { x, value: 0 };
  const a = line[course + best - 1]!;
  const b = line[course + best]!;
  const c = line[course + best + 1]!;
  const bend = a - 2 * b + c;
  const part = bend < 0 ? Math.max(-0.5, Math.min(0.5, (0.5 * (a - c)) / bend)) : 0;
  return { x: best + part, value: b };
}
