import type { WrittenRows } from '../written-rows.js';
import { holdPicture } from '../hold-picture.js';
import type { PictureWriter } from './format.js';

async function* encode(source: WrittenRows): AsyncGenerator<Uint8Array> {
  const picture = await holdPicture(source);
  yield await picture.webp({ lossless: true, exact: true }).toBuffer();
}

/**
 * WebP without loss, in sRGB, with its print resolution in Exif: the format has no other place for
 * it, and many programs look there in vain. Its lossy kind halves the colours' resolution, which
 * smears brick over mortar. Colours are kept where it is transparent, too.
 *
 * @see RFC 9649
 */
export const webp: PictureWriter = {
  name: 'WebP',
  extensions: ['.webp'],
  maxSide: 16_383,
  maxPixels: 100e6,
  encode,
};
