import type { WrittenRows } from '../written-rows.js';
import type { Piece, PictureWriter } from './format.js';

// Loaded for those who write one.
async function* encode(source: WrittenRows): AsyncGenerator<Piece> {
  const { encodeTiff } = await import('../tiff/encode-tiff.js');
  yield* encodeTiff(source);
}

/**
 * TIFF, 8-bit RGB or RGBA in strips without loss, in sRGB, with its print resolution.
 *
 * @see TIFF 6.0, sections 2 to 8, 14 and 18, and supplement 2 (Adobe deflate)
 */
export const tiff: PictureWriter = {
  name: 'TIFF',
  extensions: ['.tif', '.tiff'],
  maxSide: 2 ** 31 - 1,
  encode,
};
