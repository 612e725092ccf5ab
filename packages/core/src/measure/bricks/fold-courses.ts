import type { CourseMask } from '../joints/mask-courses.js';
import { type CourseLines, slices } from './trace-lines.js';

/** How much each place along each course looks like an upright line. */
export interface CourseBands {
  /** Courses, top down and without gap. */
  readonly courses: number;
  /** Samples along each. */
  readonly length: number;
  /** Columns of the picture that one sample stands for. */
  readonly step: number;
  /** Column of the picture at which they begin. */
  readonly left: number;
  /** `courses * length` numbers, a course after another: 1 a dark line the course's height, -1 a light one. */
  readonly line: Float32Array;
  /** The same places: 1 where the course shows, else 0. */
  readonly seen: Uint8Array;
}

/**
 * Tell of the lines along each course which stand its whole height: perpends.
 *
 * @param lines - As traced.
 * @param mask - Where the courses show; everywhere unless told.
 * @returns Bands of the same courses.
 */
export function foldCourses(lines: CourseLines, mask?: CourseMask): CourseBands {
  const { first, courses, length, step, left, sums, power } = lines;
  const line = new Float32Array(courses * length);
  const seen = new Uint8Array(courses * length).fill(1);
  for (let k = 0; k < courses; k++) {
    const from = k * length;
    const shows = seen.subarray(from, from + length);
    if (mask) markSeen(mask, first + k, lines, shows);
    const mean = meanSeen(power.subarray(from, from + length), shows);
    for (let i = from; i < from + length; i++) {
      if (seen[i] === 0) continue;
      line[i] = sums[i]! / Math.sqrt(slices * (power[i]! + 0.5 * mean) + 1e-20);
    }
  }
  return { courses, length, step, left, line, seen };
}

function markSeen(
  mask: CourseMask,
  course: number,
  { left, step, width }: CourseLines,
  out: Uint8Array,
): void {
  const scale = mask.stretches / width;
  for (let i = 0; i < out.length; i++) {
    const stretch = Math.floor((left + (i + 0.5) * step) * scale);
    out[i] = mask.seen[course * mask.stretches + stretch]!;
  }
}

function meanSeen(values: Float32Array, seen: Uint8Array): number {
  let sum = 0;
  let count = 0;
  for (let i = 0; i < values.length; i++) {
    if (seen[i] === 0) continue;
    sum += values[i]!;
    count++;
  }
  return sum / Math.max(1, count);
}
