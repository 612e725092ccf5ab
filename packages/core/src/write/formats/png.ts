import type { WrittenRows } from '../written-rows.js';
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

function* head(source: WrittenRows): Generator<Uint8Array> {
  const { width, height, dpi, channels = 3, note } = source;
  yield signature;
  // 8 bits, RGB or RGBA, deflate, the five filters, not interlaced.
  const kind = Uint8Array.of(8, channels === 4 ? 6 : 2, 0, 0, 0);
  yield toChunk('IHDR', Buffer.concat([words(width, height), kind]));
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
  yield toChunk('IEND', new Uint8Array(0));
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
