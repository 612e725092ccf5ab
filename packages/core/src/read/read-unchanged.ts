import { createHash } from 'node:crypto';
import { limitsOf } from './held-limits.js';
import { loadSharp } from './load-sharp.js';
import type { Photo } from './photo.js';
import { readBytes } from './read-bytes.js';

/**
 * Read a photo's file again, to hand it on as it is.
 *
 * @param photo - As read.
 * @returns Its bytes; null where they are others now, or hold notes such as where a camera stood and its
 * number, which nothing that is written holds.
 * @throws TextureError where it cannot be read any more.
 */
export async function readUnchanged(photo: Pick<Photo, 'path' | 'sha256'>): Promise<Buffer | null> {
  const bytes = await readBytes(photo.path, 'photo');
  if (createHash('sha256').update(bytes).digest('hex') !== photo.sha256) return null;
  const sharp = await loadSharp();
  const { exif, xmp, iptc } = await sharp(bytes, {
    limitInputPixels: limitsOf('photo').pixels,
  }).metadata();
  return exif === undefined && xmp === undefined && iptc === undefined ? bytes : null;
}
