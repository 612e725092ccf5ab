import type { Reference } from '../../surface/measurement.js';

/**
 * Tell whether work is laid without mortar, by what it was measured by: nobody knows of a span, or of courses of a
 * size of the user's own, and those count as masonry.
 *
 * @param reference - Of its measurement.
 * @returns True of roofs and boards.
 */
export function isDryLaid(reference: Pick<Reference, 'laidDry'>): boolean {
  return reference.laidDry === true;
}
