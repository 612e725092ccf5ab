import type { Straighten } from '../../measure/slant/judge-stand.js';
import { toLattice } from '../../measure/to-lattice.js';
import type { Raster } from '../../raster/raster.js';
import { seamsOf } from '../../seam/inspect/inspect-seams.js';
import type { Measurement } from '../../surface/measurement.js';
import { findEitherWay } from './find-either-way.js';
import { isFinished } from './is-finished.js';

/**
 * Find how a photo lies of which nothing is known, and where its joints are.
 *
 * @param raster - The photo.
 * @param straighten - How far it may be straightened.
 * @returns Level and without joints where it shows no courses.
 */
export function findLie(
  raster: Raster,
  straighten: Straighten,
): Pick<Measurement, 'rectification' | 'lattice'> {
  const found = findEitherWay(raster, straighten);
  if (found === null) return { rectification: null, lattice: null };
  const { rectification } = found;
  const lie = { rectification, lattice: toLattice(found) };
  if (rectification === null || !isFinished(raster, seamsOf(raster), lie)) return lie;
  return findLie(raster, 'none');
}
