import { showPath } from '../errors/show-path.js';
import { TextureError } from '../errors/texture-error.js';
import { identifyFormat } from './identify-format.js';
import { readBytes } from './read-bytes.js';
import { unpackDrawing } from './unpack-drawing.js';

// In memory the text stands beside its bytes for a moment, and one letter past Latin-1 makes it twice as large.
const maxBytes = 150e6;
const maxWideBytes = 100e6;

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
  const file = await readStored(path);
  const bytes = await unpackDrawing(path, file, maxBytes);
  const format = formatOf(path, bytes);
  if (format === null) {
    checkWide(path, bytes);
    return { bytes, stored: file.length };
  }
  throw new TextureError(
    'not-a-drawing',
    `${showPath(path)} is a picture (${format}), not a drawing`,
    { hint: 'SVG drawings are read' },
  );
}

/**
 * Read the file of a drawing as it lies on disk.
 *
 * @param path - Of the file.
 * @returns Its bytes, compressed where it is.
 * @throws TextureError when the file does not allow it.
 */
export async function readStored(path: string): Promise<Buffer> {
  return readBytes(path, { maxBytes });
}

function checkWide(path: string, bytes: Buffer): void {
  if (bytes.length <= maxWideBytes || bytes.every((byte) => byte < firstWide)) return;
  const size = `${Math.round(bytes.length / 1e6)} MB of text`;
  const message = `${showPath(path)} holds ${size} with letters past Latin-1, over the limit of ${maxWideBytes / 1e6} MB for those`;
  throw new TextureError('too-large', message, { hint: 'link its pictures' });
}

// Of a letter past U+00FF in UTF-8.
const firstWide = 0xc4;

function formatOf(path: string, bytes: Buffer): string | null {
  try {
    return identifyFormat(path, bytes);
  } catch {
    // Whatever it is, it is none of the pictures.
    return null;
  }
}
