import { outOfRange } from '../errors/out-of-range.js';

/** A place in a picture. */
export interface Point {
  /** To the right of the left edge. */
  readonly x: number;
  /** Below the top edge. */
  readonly y: number;
}

const point = /^ *(\d{1,6}(?:\.\d{1,9})?) *, *(\d{1,6}(?:\.\d{1,9})?) *$/;

/**
 * Take a point of a picture.
 *
 * @param text - As typed: `x,y`, pixels of the upright photo from its top left corner, pixel
 *   centres at +0.5: `120,80.5`.
 * @param name - What the point is for, as the user knows it.
 * @returns The point, 0 or more both ways; whether it lies in the picture is for the caller to say.
 * @throws RangeError when it is anything else.
 */
export function parsePoint(text: string, name = 'point'): Point {
  const [, x, y] = point.exec(text) ?? [];
  if (x === undefined || y === undefined) {
    throw outOfRange('a point such as 120,80', name, text);
  }
  return { x: Number(x), y: Number(y) };
}
