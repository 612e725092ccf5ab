import { findCourses } from '../measure/find-courses.js';
import { toLattice } from '../measure/to-lattice.js';
import type { Raster } from '../raster/raster.js';
import type { Lattice, PerAxis } from '../surface/measurement.js';

/** After how many photo pixels a picture may be cut. */
export interface FoundRepeat {
  /** Where the joints lie, or null where there are no courses. */
  readonly lattice: Lattice | null;
  /** One repeat of the bond, or null where nothing repeats that must not be cut. */
  readonly repeat: PerAxis<number | null>;
}

/**
 * Find after how many pixels a picture may be cut without cutting a brick.
 *
 * @param raster - The photo.
 * @param lattice - Where its joints lie, as far as that is known.
 * @returns The repeat, and the joints it goes by.
 */
export function findRepeat(raster: Raster, lattice: Lattice | null): FoundRepeat {
  const joints = lattice ?? look(raster);
  if (joints === null) return { lattice: null, repeat: { x: null, y: null } };
  const { course, repeat } = joints;
  // Where the bond could not be told, two courses: stretcher, English and Flemish bond, slates and
  // tiles all come round after two.
  return { lattice: joints, repeat: { x: repeat.x, y: repeat.y ?? 2 * course } };
}

function look(raster: Raster): Lattice | null {
  const found = findCourses(raster, { straighten: 'none' });
  return found.ok ? toLattice(found.value) : null;
}
