import type { Warning } from '../errors/warning.js';
import { holdPng } from './part/hold-png.js';
import type { PartPattern, PartPicture } from './part/part-picture.js';
import { renderBaked, renderPattern, type ShownPicture } from './part/render-svg.js';
import { checkDrawingOutput } from './write-drawing.js';
import { writeShown } from './write-shown.js';

/** How a part is drawn as an SVG, and what must stay. */
export interface PartDrawing {
  /** The part. */
  readonly part: PartPicture;
  /** What repeats, where that is to be drawn again and again; else null. */
  readonly pattern: PartPattern | null;
  /** Files that must not be written over. */
  readonly inputs: readonly string[];
}

/**
 * Write a part as an SVG, whole or not at all. Its picture stands in it, or, where that is more than
 * drawing programs read, beside it.
 *
 * @param path - Of the drawing, `.svg`.
 * @param drawing - What to write.
 * @returns What the user should know.
 * @throws TextureError when the place does not allow it.
 */
export async function writePartDrawing(
  path: string,
  drawing: PartDrawing,
): Promise<readonly Warning[]> {
  const { part, pattern, inputs } = drawing;
  await checkDrawingOutput(path, inputs);
  const png = await holdPng(pattern?.tile ?? part.rows);
  const draw = (picture: ShownPicture): Iterable<string> =>
    pattern === null ? renderBaked(part, picture) : renderPattern(part, pattern, picture);
  const render = (pictures: readonly ShownPicture[]): Iterable<string> => draw(pictures[0]!);
  return writeShown(path, { pngs: [png], render, inputs });
}
