import { outOfRange } from '../errors/out-of-range.js';
import { parsePoint, type Point } from '../units/parse-point.js';
import type { Span } from './span.js';

/**
 * Take two points of a photo.
 *
 * @param text - As typed, a blank between them: `120,80 120,680`.
 * @param name - What they are for, as the user knows it.
 * @returns From where to where.
 * @throws RangeError when it is anything else.
 */
export function parseSpan(text: string, name: string): Span {
  const [from, to, ...more] = text.trim().split(/\s+/);
  if (from === undefined || to === undefined || more.length > 0)
    throw outOfRange('two points such as "120,80 120,680"', name, text);
  return [parsePoint(from, name), parsePoint(to, name)];
}

/**
 * Take the four corners of a rectangle in a photo.
 *
 * @param text - As typed, blanks between them: `120,80 560,90 550,420 110,400`.
 * @param name - What they are for, as the user knows it.
 * @returns The four, in the order given.
 * @throws RangeError when it is anything else.
 */
export function parseCorners(text: string, name: string): readonly Point[] {
  const points = text.trim().split(/\s+/);
  if (points.length !== 4)
    throw outOfRange('four points such as "120,80 560,90 550,420 110,400"', name, text);
  return points.map((point) => parsePoint(point, name));
}
