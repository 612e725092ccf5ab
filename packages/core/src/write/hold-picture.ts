import type { Sharp } from 'sharp';
import { loadSharp } from './load-sharp.js';
import { unhurried, type WrittenRows } from './written-rows.js';

async function holdRows(source: WrittenRows): Promise<Buffer> {
  const { width, height, channels = 3 } = source;
  const bytes = Buffer.allocUnsafe(channels * width * height);
  let at = 0;
  for await (const rows of unhurried(source)) {
    for (const row of rows) {
      bytes.set(row, at);
      at += row.length;
    }
  }
  if (at === bytes.length) return bytes;
  throw new Error(`a picture said to have ${height} rows gave ${at / (channels * width)}`);
}

/**
 * Hold a whole picture for an encoder that cannot do with rows, and say of it what every file of
 * ours says: sRGB, and its print resolution.
 *
 * @param source - The picture, small enough to hold.
 * @returns The picture, for the encoder to go on with.
 */
export async function holdPicture(source: WrittenRows): Promise<Sharp> {
  const { width, height, channels = 3, dpi, note } = source;
  const sharp = await loadSharp();
  const picture = sharp(await holdRows(source), {
    raw: { width, height, channels },
    limitInputPixels: false,
  });
  // The profile alone would leave Exif to say "uncalibrated". 1 is sRGB.
  return picture.withMetadata(dpi === null ? {} : { density: dpi }).withExifMerge({
    IFD2: { ColorSpace: '1' },
    ...(note !== undefined && { IFD0: { ImageDescription: note } }),
  });
}
