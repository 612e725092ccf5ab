import { blocks } from './blocks.js';
import { bricks } from './bricks.js';
import type { CourseEntry } from './course-entry.js';
import { type CourseReference, toCourseReference } from './course-reference.js';

/**
 * Find other formats that a course could be taken for.
 *
 * @param course - Of brick or block.
 * @param within - How near, as a fraction of the course; 2 % by default.
 * @returns Bricks and blocks of nearly that course, nearest first, without those of the very same.
 */
export function nearFormats(course: CourseReference, within = 0.02): readonly CourseReference[] {
  const apart = (entry: CourseEntry): number => Math.abs(entry.course / course.size - 1);
  return [...bricks, ...blocks]
    .filter((entry) => entry.id !== course.id && apart(entry) > 1e-6 && apart(entry) <= within)
    .sort((a, b) => apart(a) - apart(b))
    .map(toCourseReference);
}
