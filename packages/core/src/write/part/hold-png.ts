import type { RowSource } from '../../raster/row-source.js';
import { png } from '../formats/png.js';

/**
 * Make a PNG in memory, compressed.
 *
 * @param rows - Its pixels.
 * @returns The file.
 */
export async function holdPng(rows: RowSource): Promise<Uint8Array> {
  const pieces: Uint8Array[] = [];
  for await (const piece of png.encode(rows, undefined)) {
    if (piece instanceof Uint8Array) pieces.push(piece);
  }
  return Buffer.concat(pieces);
}
