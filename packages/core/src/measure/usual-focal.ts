import type { Size } from '../units/parse-size.js';
import type { FocalLength } from './find-focal-length.js';

/**
 * Say what focal length a photo is likely to have been taken with, where nothing tells: as long as
 * the photo, which is 36 mm on a 35 mm camera; telephones take it with some 26 mm, cameras with up
 * to 50 mm (common practice, no source).
 *
 * @param size - The photo.
 * @returns It, and how far it may be off.
 */
export function usualFocal(size: Size<number>): FocalLength {
  return { px: Math.max(size.width, size.height), uncertainty: 0.4, source: 'what is usual' };
}
