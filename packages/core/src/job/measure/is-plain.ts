import type { OpenedPhoto } from '../../read/open-photo.js';
import type { Raster } from '../../raster/raster.js';
import { findEitherWay } from './find-either-way.js';
import type { MeasuredPicture } from './is-tile.js';

/**
 * Tell whether all of a photo shows no courses, lying or standing: they are looked for where nobody did when it
 * was measured, so that nobody need do so again for every part.
 *
 * @param opened - The photo.
 * @param measured - What is known of it.
 * @returns Whether it is level, and shows none.
 * @throws TextureError when not all of it can be decoded.
 */
export async function isPlain(opened: OpenedPhoto, measured: MeasuredPicture): Promise<boolean> {
  const { photo, found } = measured;
  const { measurement } = found;
  if (measurement.rectification !== null || measurement.lattice !== null) return false;
  const { raster } = photo.step === 1 ? photo : await opened.whole();
  return showsNone(raster);
}

/**
 * Tell whether a picture that is level shows no courses, lying or standing.
 *
 * @param raster - All of it.
 * @returns Whether it shows none.
 */
export function showsNone(raster: Raster): boolean {
  return findEitherWay(raster, 'none') === null;
}
