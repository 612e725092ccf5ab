import type { CourseBands } from './fold-courses.js';

/**
 * Move each course along by its distance from the middle one, so that perpends that lean stand
 * upright.
 *
 * @param bands - Perpends by course.
 * @param lean - Samples that a perpend moves to the right from one course to the next.
 * @returns The same, upright.
 */
export function leanBands(bands: CourseBands, lean: number): CourseBands {
  const { courses, length } = bands;
  const line = new Float32Array(bands.line.length);
  const seen = new Uint8Array(bands.seen.length);
  for (let k = 0; k < courses; k++) {
    const shift = Math.round(lean * (k - (courses - 1) / 2));
    const from = Math.max(0, -shift);
    const to = Math.min(length, length - shift);
    for (let i = from; i < to; i++) {
      line[k * length + i] = bands.line[k * length + i + shift]!;
      seen[k * length + i] = bands.seen[k * length + i + shift]!;
    }
  }
  return { ...bands, line, seen };
}
