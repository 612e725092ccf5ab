import { findCourseEntry } from '../../catalogue/find-course.js';
import type { Reference } from '../../surface/measurement.js';
import { type RealMm, realMm } from '../../units/units.js';

/**
 * Say how thick the mortar of a reference is.
 *
 * @param reference - What was held against a picture, by its id.
 * @returns Its joint, or null where it has none or the catalogue does not know it.
 */
export function findJoint(reference: Reference): RealMm | null {
  const joint = findCourseEntry(reference.id)?.joint ?? 0;
  return joint > 0 ? realMm(joint) : null;
}
