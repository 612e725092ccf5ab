import type { RowSource } from '../raster/row-source.js';
import { jpeg } from './formats/jpeg.js';
import { png } from './formats/png.js';

/** What {@link encodePicture} makes. */
export interface EncodePictureOptions {
  /** Without loss, or with little. */
  readonly format: 'png' | 'jpeg';
  /** Of a JPEG, 1 to 100. */
  readonly quality?: number;
}

/**
 * Make a picture's file in memory, as it would be written.
 *
 * @param source - Within the limits of what it becomes.
 * @param options - What that is.
 * @returns All of its bytes.
 */
export async function encodePicture(
  source: RowSource,
  options: EncodePictureOptions,
): Promise<Buffer> {
  const { format, quality } = options;
  const pieces: Uint8Array[] = [];
  for await (const piece of (format === 'png' ? png : jpeg).encode(source, quality)) {
    // Neither goes back to what it wrote.
    if (piece instanceof Uint8Array) pieces.push(piece);
  }
  return Buffer.concat(pieces);
}
