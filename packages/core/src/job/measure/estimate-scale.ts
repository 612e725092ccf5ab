import type { Outcome } from '../../errors/outcome.js';
import { measureDistance } from '../../measure/given/measure-distance.js';
import type { Photo } from '../../read/read-photo.js';
import type { Measurement } from '../../surface/measurement.js';
import type { StatedLength } from '../../units/parse-stated-length.js';
import type { RealMm } from '../../units/units.js';
import { findLens } from './find-lens.js';
import { slantByEye } from '../../measure/given/slant-by-eye.js';

/** From where a photo was taken, and its lens where the photo does not say. */
export interface GivenDistance {
  /** From the camera to the wall. */
  readonly distance: StatedLength;
  /** Focal length of a 35 mm camera that sees as much, or null to go by the photo's notes. */
  readonly focal: RealMm | null;
}

/**
 * Estimate a photo's scale from the distance it was taken at.
 *
 * @param photo - As read.
 * @param given - From where, and with what lens.
 * @returns The estimate, or why the photo does not tell its lens.
 */
export function estimateScale(
  photo: Photo,
  given: GivenDistance,
): Outcome<Measurement, 'no-focal-length'> {
  const { distance, focal } = given;
  const found = findLens(photo, focal);
  if (!found.ok) return found;
  return measureDistance(photo, { distance, focal: found.value, slant: slantByEye });
}
