import { showPath } from '../errors/show-path.js';
import { TextureError } from '../errors/texture-error.js';
import { identifyFormat } from './identify-format.js';
import { readBytes } from './read-bytes.js';
import { unpackDrawing } from './unpack-drawing.js';

const maxBytes = 200e6;

/** The file of a drawing. */
export interface DrawingFile {
  /** Its text, as bytes: unpacked where it is compressed. */
  readonly bytes: Buffer;
  /** How many bytes it takes on disk. */
  readonly stored: number;
}

/**
 * Read the file of a drawing, compressed or not, and refuse a photo in its place.
 *
 * @param path - Of the file.
 * @returns Its text, which is no picture.
 * @throws TextureError when the file does not allow it.
 */
export async function readDrawingBytes(path: string): Promise<DrawingFile> {
  const file = await readBytes(path, { maxBytes });
  const bytes = await unpackDrawing(path, file, maxBytes);
  const format = formatOf(path, bytes);
  if (format === null) return { bytes, stored: file.length };
  throw new TextureError(
    'not-a-drawing',
    `${showPath(path)} is a picture (${format}), not a drawing`,
    { hint: 'SVG drawings are read' },
  );
}

function formatOf(path: string, bytes: Buffer): string | null {
  try {
    return identifyFormat(path, bytes);
  } catch {
    // Whatever it is, it is none of the pictures.
    return null;
  }
}
