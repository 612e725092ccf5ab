import { type CourseReference, toCourseReference } from './course-reference.js';
import { type OwnReference, toCourseEntry } from './own-reference.js';

/**
 * Turn references of one's own into what is held against a picture.
 *
 * @param own - Beside the catalogue's; none unless told.
 * @returns The same, in their order.
 */
export function ownCourses(own: readonly OwnReference[] = []): readonly CourseReference[] {
  return own.map((reference) => toCourseReference(toCourseEntry(reference)));
}
