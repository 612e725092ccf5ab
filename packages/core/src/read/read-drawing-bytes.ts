import { showPath } from '../errors/show-path.js';
import { TextureError } from '../errors/texture-error.js';
import { mostOf } from '../limits/limits.js';
import { liftedBy } from '../limits/over-limit.js';
import { limitsOf } from './held-limits.js';
import { identifyFormat } from './identify-format.js';
import { readBytes } from './read-bytes.js';
import { unpackDrawing } from './unpack-drawing.js';

// One letter past Latin-1 makes a text twice as large in memory.
const wideShare = 2 / 3;

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
  const bytes = await unpackDrawing(path, file);
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
  return readBytes(path, 'drawing');
}

function checkWide(path: string, bytes: Buffer): void {
  const most = wideShare * limitsOf('drawing').bytes;
  if (bytes.length <= most || bytes.every((byte) => byte < firstWide)) return;
  const size = `${Math.round(bytes.length / 1e6)} MB of text`;
  const message = `${showPath(path)} holds ${size} with letters past Latin-1, more than ${Math.round(most / 1e6)} MB of those`;
  const lifted = liftedBy('bytes', bytes.length / wideShare, mostOf('drawing'));
  throw new TextureError('too-large', `${message}${lifted}`, {
    hint: 'link its pictures',
    limit: 'bytes',
  });
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
