import { outOfRange } from '../../errors/out-of-range.js';
import { parsePrintLength } from '../../units/parse-length.js';
import { parsePlace } from '../../units/parse-place.js';
import type { Corner } from './next-wall.js';
import type { StringCourse } from './wall-relief-options.js';

/**
 * Take round which corner of a wall the next one stands.
 *
 * @param text - `right`, or `left=60mm` with the width of that wall on paper.
 * @param name - What it is for, as the user knows it.
 * @returns Which side, and the width where it is asked for.
 * @throws RangeError when it is anything else.
 */
export function parseCorner(text: string, name = 'corner'): Corner {
  if (text === 'right') return { side: 'right' };
  const width = /^left=(.+)$/s.exec(text)?.[1];
  if (width !== undefined) return { side: 'left', width: parsePrintLength(width, name) };
  throw outOfRange('right, or left=60mm with the width of the wall there,', name, text);
}

/**
 * Take a course that stands out from a wall.
 *
 * @param text - How far its top lies below the datum, and how high it is, mm of paper: `24,3`.
 * @param name - What it is for, as the user knows it.
 * @returns Its top and its height.
 * @throws RangeError when it is no two lengths.
 */
export function parseStringCourse(text: string, name = 'string course'): StringCourse {
  const { x, y } = parsePlace(text, name, 'how far down and how high, such as 24,3,');
  return { y: x, height: y };
}

/** A shape of a drawing, by its id where one is named. */
export interface NamedShape {
  /** The drawing. */
  readonly path: string;
  /** Of the shape. */
  readonly id?: string;
}

/**
 * Take which shape of which drawing is meant.
 *
 * @param text - `front.svg`, or `front.svg#gable`.
 * @returns Both.
 */
export function parseShape(text: string): NamedShape {
  const [, path = text, id] = /^(.*\.svgz?)#(.+)$/is.exec(text) ?? [];
  return { path, ...(id !== undefined && { id }) };
}
