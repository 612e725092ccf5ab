import { type CourseFit, findCourses } from '../../measure/find-courses.js';
import type { Straighten } from '../../measure/slant/judge-stand.js';
import type { Raster } from '../../raster/raster.js';

// Surer than this of courses that lie, nobody asks whether they stand; and they stand only where that
// leaves this share of the doubt at most: bricks on end look like courses too.
const sure = 0.98;
const clearly = 0.2;

/**
 * Find the courses of a picture of which nobody said whether they lie level or stand upright, as
 * boards do.
 *
 * @param raster - The picture.
 * @param straighten - How far it may be straightened.
 * @returns Its courses, or null where it shows none.
 */
export function findEitherWay(raster: Raster, straighten: Straighten): CourseFit | null {
  const lying = findCourses(raster, { straighten });
  if (lying.ok && lying.value.confidence >= sure) return lying.value;
  const standing = findCourses(raster, { straighten, axis: 'x' });
  const doubt = lying.ok ? 1 - lying.value.confidence : Infinity;
  if (standing.ok && 1 - standing.value.confidence <= clearly * doubt) return standing.value;
  return lying.ok ? lying.value : null;
}
