import type { Warning } from '../errors/warning.js';
import { holdPng } from './part/hold-png.js';
import { type DrawnPieces, renderRelief } from './part/render-relief.js';
import { checkDrawingOutput } from './write-drawing.js';
import { writeShown } from './write-shown.js';

/** Pieces in relief to be drawn as an SVG, and what must stay. */
export interface ReliefDrawing extends DrawnPieces {
  /** Files that must not be written over. */
  readonly inputs: readonly string[];
}

/**
 * Write pieces in relief as an SVG whose lines stay lines, whole or not at all.
 *
 * @param path - Of the drawing, `.svg`.
 * @param drawing - What to write.
 * @returns What the user should know.
 * @throws TextureError when the place does not allow it.
 */
export async function writeReliefDrawing(
  path: string,
  drawing: ReliefDrawing,
): Promise<readonly Warning[]> {
  const { part, flat, inputs } = drawing;
  await checkDrawingOutput(path, inputs);
  return writeShown(path, {
    pngs: [await holdPng(part.rows), await holdPng(flat)],
    render: (pictures) => renderRelief(drawing, [pictures[0]!, pictures[1]!]),
    inputs,
  });
}
