import type { Warning } from '../errors/warning.js';
import type { InspectedSurface } from './open-surface.js';

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
  const warnings: Warning[] = [];
  if (raster.planes.every((plane) => isEven(plane))) {
    const message = 'the picture is one colour all over: it repeats, and there is nothing to see';
    warnings.push({ code: 'one-colour', message });
  }
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

function isEven(plane: Float32Array): boolean {
  const first = plane[0];
  return plane.every((value) => value === first);
}
