import { decodeDrawing, type DrawingText } from '../drawing/decode-drawing.js';
import type { Drawing } from '../drawing/drawing.js';
import { readDrawing } from '../drawing/read-drawing.js';
import { readDrawingBytes } from '../read/read-drawing-bytes.js';
import { explainDrawing } from './explain-drawing.js';

/** A drawing, read, and how to write it back. */
export interface OpenedDrawing extends DrawingText {
  /** Read. */
  readonly drawing: Drawing;
  /** Of its file. */
  readonly bytes: number;
}

/**
 * Read a drawing.
 *
 * @param path - Where it lies.
 * @returns It.
 * @throws TextureError when the file is none that can be worked on.
 */
export async function openDrawing(path: string): Promise<OpenedDrawing> {
  const file = await readDrawingBytes(path);
  try {
    const decoded = decodeDrawing(file);
    return { ...decoded, drawing: readDrawing(decoded.text), bytes: file.length };
  } catch (cause) {
    throw explainDrawing(path, cause);
  }
}
