import { outOfRange } from '../../errors/out-of-range.js';
import type { MeasurePhotoOptions } from './measure-known.js';
import { checkLens } from './reference-options.js';

/**
 * Refuse options that a page which is pointed at could not heed.
 *
 * @param options - As the caller gave them.
 * @throws RangeError when there is one.
 */
export function checkPage(options: MeasurePhotoOptions): void {
  const { page, straighten = 'full', distance, focal } = options;
  if (page === undefined) return;
  if (focal !== undefined) checkLens(focal);
  if (straighten !== 'full') {
    throw outOfRange(
      'a photo that may be straightened wholly beside a page',
      'straighten',
      straighten,
    );
  }
  if (distance !== undefined) {
    throw outOfRange('no distance beside a page', 'distance', `${distance.length} mm`);
  }
}
