import type { Warning } from '../errors/warning.js';
import { holdPng } from './part/hold-png.js';
import type { PartPicture } from './part/part-picture.js';
import { renderCut } from './part/render-svg.js';
import { writeShown } from './write-shown.js';

/** A part that is cut to shape, and the line to cut along. */
export interface CutPart {
  /** Its dots. */
  readonly part: PartPicture;
  /** Closed lines of points x, y, x, y…, mm from the page's top left corner. */
  readonly loops: readonly Float64Array[];
}

/**
 * Write a part as an SVG of its picture and the line that it is cut along, whole or not at all.
 *
 * @param path - Of the drawing, `.svg`.
 * @param cut - What to write.
 * @param inputs - Files that must not be written over.
 * @returns What the user should know.
 * @throws TextureError when the place does not allow it.
 */
export async function writeCutPart(
  path: string,
  cut: CutPart,
  inputs: readonly string[],
): Promise<readonly Warning[]> {
  return writeShown(path, {
    pngs: [await holdPng(cut.part.rows)],
    render: (pictures) => renderCut(cut.part, cut.loops, pictures[0]!),
    inputs,
  });
}
