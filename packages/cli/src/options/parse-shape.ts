import type { Reading } from './option.js';
import { parsePath } from './parse-path.js';

/** A shape of a drawing, by its id where one is named. */
interface NamedShape {
  /** The drawing. */
  readonly path: string;
  /** Of the shape. */
  readonly id?: string;
}

/**
 * Read which shape of which drawing is meant.
 *
 * @param text - `front.svg`, or `front.svg#gable`.
 * @param reading - What it is for.
 * @returns Both.
 */
export function parseShape(text: string, reading: Reading): NamedShape {
  const { path, ...named } = reading.core.parseShape(text);
  return { path: parsePath(path, reading), ...named };
}
