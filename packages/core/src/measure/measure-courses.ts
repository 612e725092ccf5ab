import type { CourseReference } from '../catalogue/find-course.js';
import type { Outcome } from '../errors/outcome.js';
import type { Raster } from '../raster/raster.js';
import type { Measurement } from '../surface/measurement.js';
import { expandUncertainty } from './expand-uncertainty.js';
import { findCourses } from './find-courses.js';
import { toLattice } from './to-lattice.js';

/**
 * Measure a picture by the courses it shows. Pixels are taken as square and the photo as level, so
 * the courses give millimetres per pixel both ways; bricks only check it.
 *
 * @param raster - A level photo; courses lie along its rows.
 * @param reference - How high one course really is.
 * @returns Millimetres per pixel, or `no-courses` where the picture holds none.
 */
export function measureCourses(
  raster: Raster,
  reference: CourseReference,
): Outcome<Measurement, 'no-courses'> {
  const found = findCourses(raster);
  if (!found.ok) return found;
  const { value: fit, warnings } = found;
  const { id, name, size, uncertainty, source } = reference;
  // Courses that fall to one side lie closer together than they measure down the picture.
  const mmPerPx = size / (fit.course * Math.cos((fit.tilt * Math.PI) / 180));
  return {
    ok: true,
    warnings,
    value: {
      method: 'courses',
      reference: { id, name, size, uncertainty, source },
      mmPerPx: { x: mmPerPx, y: mmPerPx },
      uncertaintyPercent: expandUncertainty([uncertainty, fit.uncertainty]),
      confidence: fit.confidence,
      rectification: null,
      lattice: toLattice(fit),
    },
  };
}
