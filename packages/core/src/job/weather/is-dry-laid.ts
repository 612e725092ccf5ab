import { isLaidDry } from '../../catalogue/course-entry.js';
import { findCourseEntry } from '../../catalogue/find-course.js';
import type { Reference } from '../../surface/measurement.js';

/**
 * Tell whether work is laid without mortar, by what it was measured by: nobody knows of a span, or of courses of a
 * size of the user's own, and those count as masonry.
 *
 * @param reference - Of its measurement.
 * @returns True of roofs and boards.
 */
export function isDryLaid(reference: Pick<Reference, 'id' | 'laidDry'>): boolean {
  const { id, laidDry = false } = reference;
  if (laidDry) return true;
  // Surface files of before did not say so.
  const kind = findCourseEntry(id)?.kind;
  // A slate that is in no list has its size in its id.
  return (kind !== undefined && isLaidDry(kind)) || id.startsWith('slate-');
}
