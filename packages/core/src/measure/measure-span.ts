import type { Outcome } from '../errors/outcome.js';
import {
  type KnownSpan,
  type MeasuredSpans,
  measureSpans,
  type SpansRefusal,
} from './measure-spans.js';
import type { Size } from '../units/parse-size.js';

/**
 * Measure a picture by one line of known length, taken to be level and square to the camera.
 *
 * @param size - The picture, upright.
 * @param span - The line.
 * @returns Millimetres per pixel, the same both ways, or why the line will not do.
 * @throws RangeError when the ends are less than a pixel apart, or an uncertainty is below 0.
 */
export function measureSpan(
  size: Size<number>,
  span: KnownSpan,
): Outcome<MeasuredSpans, SpansRefusal> {
  return measureSpans(size, [span]);
}
