import { showPath } from '../errors/show-path.js';
import { TextureError } from '../errors/texture-error.js';
import { identifyFormat } from './identify-format.js';
import { readBytes } from './read-bytes.js';
import { unpackDrawing } from './unpack-drawing.js';

const maxBytes = 200e6;

/**
 * Read the file of a drawing, compressed or not, and refuse a photo in its place.
 *
 * @param path - Of the file.
 * @returns Its bytes, which are no picture's.
 * @throws TextureError when the file does not allow it.
 */
export async function readDrawingBytes(path: string): Promise<Buffer> {
  const bytes = await unpackDrawing(path, await readBytes(path, { maxBytes }), maxBytes);
  const format = formatOf(path, bytes);
  if (format === null) return bytes;
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
