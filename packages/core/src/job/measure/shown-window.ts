import { largestWindow } from '../../rectify/largest-window.js';
import type { Measurement } from '../../surface/measurement.js';
import type { Size } from '../../units/parse-size.js';

/**
 * Say how much of the level picture a photo shows all of.
 *
 * @param measurement - Of the photo.
 * @param size - The photo, in pixels.
 * @returns Level pixels: the whole photo where it is level, else its largest upright rectangle.
 */
export function shownWindow(measurement: Measurement, size: Size<number>): Size<number> {
  const { rectification } = measurement;
  return rectification === null ? size : largestWindow(rectification, size);
}
