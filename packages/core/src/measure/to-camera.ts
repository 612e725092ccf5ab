import type { Size } from '../units/parse-size.js';
import type { FocalLength } from './find-focal-length.js';
import { usualFocal } from './usual-focal.js';

/** What is known of the camera, in units of half the photo's diagonal. */
export interface Camera {
  /** Focal length. */
  readonly focal: number;
  /** Standard uncertainty (k = 1) of it, as a fraction. */
  readonly focalSpread: number;
  /** The same of where it looked straight ahead: the middle, unless the photo was cut since. */
  readonly aheadSpread: number;
}

/** How far from its middle a photo may look straight ahead (k = 1): many have been cut. */
const usualAhead = 0.2;
/** No camera is known better: a picture may have been cut a little. */
const leastOpen = 0.03;

/**
 * Say what is known of the camera that took a photo.
 *
 * @param size - The photo.
 * @param known - Its focal length, where that is known.
 * @returns The same, or what is usual.
 */
export function toCamera(size: Size<number>, known?: FocalLength): Camera {
  const { width, height } = size;
  const half = Math.hypot(width, height) / 2;
  const { px, uncertainty } = known ?? usualFocal(size);
  return {
    focal: px / half,
    focalSpread: Math.max(leastOpen, uncertainty),
    aheadSpread: known === undefined ? usualAhead : leastOpen,
  };
}
