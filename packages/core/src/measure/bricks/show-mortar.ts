import type { CourseBands } from './fold-courses.js';

/** 1 dark (or cold), -1 light (or warm). */
export type Mortar = 1 | -1;

/**
 * Keep of the lines along courses those that mortar of one kind would make.
 *
 * @param bands - Dark lines above 0, light ones below.
 * @param mortar - Which kind.
 * @returns Bands of their own, 0 to 1: 1 a perpend.
 */
export function showMortar(bands: CourseBands, mortar: Mortar): CourseBands {
  const { courses, length, step, left, seen } = bands;
  const line = new Float32Array(bands.line.length);
  for (let i = 0; i < line.length; i++) line[i] = Math.max(0, mortar * bands.line[i]!);
  return { courses, length, step, left, line, seen };
}
