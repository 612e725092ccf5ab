import type { WrittenRows } from '../written-rows.js';
import type { Size } from '../../units/parse-size.js';
import { mmPerInch } from '../../units/units.js';
import { toChunk } from '../png/chunk.js';
import { compressRows } from '../png/compress-rows.js';
import type { PictureWriter } from './format.js';

const signature = Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a);

function words(...values: readonly number[]): Buffer {
  const bytes = Buffer.alloc(values.length * 4);
  values.forEach((value, i) => bytes.writeUInt32BE(value, i * 4));
  return bytes;
}

/**
 * Begin a PNG of 8 bits.
 *
 * @param size - Columns and rows.
 * @param kind - Colour type: 0 grey, 2 RGB, 6 RGBA.
 * @returns Signature and header.
 */
export function pngHead(size: Size<number>, kind: number): Uint8Array {
  // Deflate, the five filters, not interlaced.
  const header = Buffer.concat([words(size.width, size.height), Uint8Array.of(8, kind, 0, 0, 0)]);
  return Buffer.concat([signature, toChunk('IHDR', header)]);
}

/**
 * End a PNG.
 *
 * @returns Its last chunk.
 */
export function pngEnd(): Uint8Array {
  return toChunk('IEND', new Uint8Array(0));
}

function* head(source: WrittenRows): Generator<Uint8Array> {
  const { dpi, channels = 3, note } = source;
  yield pngHead(source, channels === 4 ? 6 : 2);
  // Perceptual, for photographs; gAMA says nearly the same to readers that do not know sRGB.
  yield toChunk('sRGB', Uint8Array.of(0));
  yield toChunk('gAMA', words(45_455));
  if (note !== undefined) yield toChunk('tEXt', Buffer.from(`Comment\0${note}`, 'latin1'));
  if (dpi === null) return;
  // Whole pixels to the metre, nearest.
  const density = Math.round((dpi * 1000) / mmPerInch);
  yield toChunk('pHYs', Buffer.concat([words(density, density), Uint8Array.of(1)]));
}

async function* encode(source: WrittenRows): AsyncGenerator<Uint8Array> {
  yield* head(source);
  yield* compressRows(source);
  yield pngEnd();
}

/**
 * PNG, 8-bit RGB or RGBA in sRGB, with its print resolution.
 *
 * @see PNG (Portable Network Graphics) Specification, third edition, 5 and 11
 */
export const png: PictureWriter = {
  name: 'PNG',
  extensions: ['.png'],
  maxSide: 2 ** 31 - 1,
  encode,
};
