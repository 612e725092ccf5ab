import { createHash } from 'node:crypto';
import { holdsPosition } from './holds-position.js';
import type { Photo } from './photo.js';
import { readBytes } from './read-bytes.js';

/**
 * Read a photo's file again, to hand it on as it is.
 *
 * @param photo - As read.
 * @returns Its bytes; null where they are others now, or hold a camera's notes or where it stood, which
 * nothing that is written holds.
 * @throws TextureError where it cannot be read any more.
 */
export async function readUnchanged(photo: Photo): Promise<Buffer | null> {
  if (photo.exif !== null) return null;
  const bytes = await readBytes(photo.path, { maxBytes: photo.bytes });
  const isSame = createHash('sha256').update(bytes).digest('hex') === photo.sha256;
  return isSame && !holdsPosition(bytes, undefined) ? bytes : null;
}
