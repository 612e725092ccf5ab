import type { Pattern } from './bond-pattern.js';
import { fineness, type Lay } from './lay-bond.js';

/** Where a bond would have a perpend. */
export interface Foretold {
  /** Course of the bands, from 0. */
  readonly row: number;
  /** Sample along it, seldom whole. */
  readonly x: number;
}

/**
 * List the perpends that a bond foretells in one window.
 *
 * @param lay - How it lies there.
 * @param pattern - The bond's.
 * @param stretcher - A stretcher with its joint, in samples.
 * @returns Course by course.
 */
export function foretellPerpends(lay: Lay, pattern: Pattern, stretcher: number): Foretold[] {
  const { window, turn, start } = lay;
  const foretold: Foretold[] = [];
  const period = stretcher * pattern.repeat;
  const cycle = pattern.perpends.length;
  for (let k = 0; k < window.courses; k++) {
    const row = window.firstCourse + k;
    const course = (((row - turn) % cycle) + cycle) % cycle;
    for (const place of pattern.perpends[course]!) {
      const phase = (place + start + 0.5 / (fineness * pattern.repeat)) * period;
      const from = Math.ceil((window.from - phase) / period);
      for (let x = phase + from * period; x < window.to; x += period) foretold.push({ row, x });
    }
  }
  return foretold;
}
