import type { Outcome } from '../../errors/outcome.js';
import {
  findFocalLength,
  type FocalLength,
  fromEquivalent,
} from '../../measure/find-focal-length.js';
import type { Photo } from '../../read/read-photo.js';
import type { RealMm } from '../../units/units.js';

/**
 * Find the focal length that a photo was taken with: as the caller says, else as the camera noted.
 *
 * @param photo - As read.
 * @param focal - Of a 35 mm camera that sees as much, where the caller knows it, or null.
 * @returns It in pixels, or why the photo does not tell.
 */
export function findLens(
  photo: Photo,
  focal: RealMm | null,
): Outcome<FocalLength, 'no-focal-length'> {
  if (focal === null) return findFocalLength(photo, photo.exif);
  const source = `focal length of ${focal} mm (35 mm equivalent) given`;
  return { ok: true, value: fromEquivalent(photo, focal, source), warnings: [] };
}
