import { BadDrawing } from '../../drawing/bad-drawing.js';
import { refuseDrawing } from './refuse-drawing.js';

/**
 * Name the file that a drawing which cannot be worked on came from.
 *
 * @param path - Where it lies.
 * @param cause - Whatever was thrown while it was read.
 * @returns What to throw on: anything but a bad drawing is left as it is.
 */
export function explainDrawing(path: string, cause: unknown): unknown {
  return cause instanceof BadDrawing ? refuseDrawing(path, 'bad-drawing', cause) : cause;
}
