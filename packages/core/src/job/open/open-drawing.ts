import { limitsOf } from '../../read/held-limits.js';
import { decodeDrawing, type DrawingText } from '../../drawing/decode-drawing.js';
import type { Drawing } from '../../drawing/drawing.js';
import { readDrawing } from '../../drawing/read-drawing.js';
import { readDrawingBytes } from '../../read/read-drawing-bytes.js';
import { explainDrawing } from './explain-drawing.js';

/** A drawing, read, and how to write it back. */
export interface OpenedDrawing extends DrawingText {
  /** Read. */
  readonly drawing: Drawing;
  /** Of its text. */
  readonly bytes: number;
  /** Of its file, which is smaller where it is compressed. */
  readonly stored: number;
}

/**
 * Read a drawing.
 *
 * @param path - Where it lies.
 * @returns It.
 * @throws TextureError when the file is none that can be worked on.
 */
export async function openDrawing(path: string): Promise<OpenedDrawing> {
  try {
    const told = await readText(path);
    return { ...told, drawing: readDrawing(told.text, limitsOf('drawing')) };
  } catch (cause) {
    throw explainDrawing(path, cause);
  }
}

// The file's bytes are let go before its text is read: of a drawing of 50 MB a sixth of all memory.
async function readText(path: string): Promise<Omit<OpenedDrawing, 'drawing'>> {
  const { bytes, stored } = await readDrawingBytes(path);
  return { ...decodeDrawing(bytes), bytes: bytes.length, stored };
}
