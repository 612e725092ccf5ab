import type { Warning } from '../errors/warning.js';
import type { InspectedSurface } from './open-surface.js';
import { warnOfOneColour } from './warn-of-one-colour.js';

// Two courses make one joint between them.
const leastCourses = 2;

/**
 * Warn of a tile that nothing can be told by: one colour all over, or hardly a course high.
 *
 * @param surface - Its pixels, and its joints where they are known.
 * @returns Warnings, or none.
 */
export function warnOfTile(surface: InspectedSurface): readonly Warning[] {
  const { raster, lattice } = surface;
  const warnings = [...warnOfOneColour(raster)];
  if (lattice !== null) {
    const length = lattice.axis === 'x' ? raster.width : raster.height;
    const held = length / lattice.course;
    if (held < leastCourses) {
      const message = `the picture holds ${held.toFixed(1)} courses: with less than ${leastCourses} nothing tells how they go on`;
      warnings.push({ code: 'few-courses', message });
    }
  }
  return warnings;
}
