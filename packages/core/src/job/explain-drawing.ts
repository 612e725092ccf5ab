import { BadDrawing } from '../drawing/bad-drawing.js';
import { showPath } from '../errors/show-path.js';
import { TextureError } from '../errors/texture-error.js';

/**
 * Name the file that a drawing which cannot be worked on came from.
 *
 * @param path - Where it lies.
 * @param cause - Whatever was thrown while it was read.
 * @returns What to throw on: anything but a bad drawing is left as it is.
 */
export function explainDrawing(path: string, cause: unknown): unknown {
  if (!(cause instanceof BadDrawing)) return cause;
  const { message, hint } = cause;
  return new TextureError('bad-drawing', `${showPath(path)} ${showPath(message)}`, {
    cause,
    ...(hint !== undefined && { hint }),
  });
}
