import { limitsOf } from '../../read/held-limits.js';
import { decodeDrawing } from '../../drawing/decode-drawing.js';
import { takeLine } from '../../drawing/outline/take-line.js';
import { readDrawing } from '../../drawing/read-drawing.js';
import { type Bend, toBend } from '../../finish/relief/bend.js';
import { readDrawingBytes } from '../../read/read-drawing-bytes.js';
import { type Dpi, mmPerInch } from '../../units/units.js';
import { explainDrawing } from '../open/explain-drawing.js';
import type { OutlineSource } from '../fill/read-outline.js';
import { refuseDrawing } from '../open/refuse-drawing.js';

/** A line of a drawing that a piece is bent along. */
export interface ReadAlong {
  /** As the piece follows it, mm of paper from the drawing's top left corner. */
  readonly bend: Bend;
  /** Its id, or null. */
  readonly id: string | null;
}

// Dots that a straight piece may be away from the curve it stands for.
const flatness = 0.02;

/**
 * Read the line that a piece is bent along from a drawing.
 *
 * @param source - Where it lies.
 * @param dpi - Of the printer: curves are as smooth as it can tell.
 * @returns The line.
 * @throws TextureError when the drawing does not allow it.
 */
export async function readAlong(source: OutlineSource, dpi: Dpi): Promise<ReadAlong> {
  const { path, id } = source;
  const { bytes } = await readDrawingBytes(path);
  try {
    const drawing = readDrawing(decodeDrawing(bytes).text, limitsOf('drawing'));
    const tolerance = (flatness * mmPerInch) / dpi;
    const taken = takeLine(drawing, { tolerance, ...(id !== undefined && { id }) });
    if (!taken.ok) throw refuseDrawing(path, taken.code, taken);
    const bend = toBend(taken.value);
    if (bend.length > 0) return { bend, id: taken.value.id };
    throw refuseDrawing(path, 'no-outline', {
      message: 'holds a line of no length',
      hint: 'draw it from one end of the piece to the other',
    });
  } catch (cause) {
    throw explainDrawing(path, cause);
  }
}
