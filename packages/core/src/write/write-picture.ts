import { extname } from 'node:path';
import { outOfRange } from '../errors/out-of-range.js';
import { showPath } from '../errors/show-path.js';
import { TextureError } from '../errors/texture-error.js';
import type { WrittenRows } from './written-rows.js';
import { checkOpacity } from './check-opacity.js';
import { checkOutput } from './check-output.js';
import { checkQuality } from './check-quality.js';
import type { PictureWriter } from './formats/format.js';
import { pictureFormats } from './formats/index.js';
import { writeAtomically } from './write-atomically.js';

/** What a caller may ask of {@link writePicture}. */
export interface WritePictureOptions {
  /** Files that must not be written over: the photo and all else that was read. */
  readonly inputs?: readonly string[];
  /** How true a JPEG is, 1 to 100; 92 unless told, and not to be told of other kinds. */
  readonly quality?: number | undefined;
}

// What PNG and TIFF can say.
const mostSide = 2 ** 31 - 1;

function checkSource({ width, height, period, across }: WrittenRows): void {
  const whole = 'a whole number of 1 or more';
  if (!(Number.isInteger(width) && width >= 1)) throw outOfRange(whole, 'width', width);
  if (!(Number.isInteger(height) && height >= 1)) throw outOfRange(whole, 'height', height);
  for (const [name, value] of Object.entries({ period, across })) {
    if (value !== undefined && !(Number.isInteger(value) && value >= 1)) {
      throw outOfRange(whole, name, value);
    }
  }
}

// Before a row is made.
function checkLimits(path: string, { width, height }: WrittenRows, format: PictureWriter): void {
  const { name, maxSide, maxPixels = Infinity } = format;
  const over =
    Math.max(width, height) > maxSide
      ? `${name}'s limit of ${maxSide} a side`
      : width * height > maxPixels
        ? `the ${maxPixels / 1e6} million that are written as ${name}`
        : null;
  if (over === null) return;
  const message = `${showPath(path)} would be ${width} x ${height} pixels, over ${over}`;
  const better = maxSide < mostSide ? { hint: 'write it as .png or .tif' } : {};
  throw new TextureError('too-large', message, better);
}

/**
 * Write a picture, row by row: a page is never held, and a picture that repeats is compressed once.
 * The file is there whole or not at all, and carries its print resolution and sRGB.
 *
 * @param path - Of the picture; its extension says what it becomes: `.png`, `.tif`, `.jpg` or `.webp`.
 * @param source - What to write.
 * @param options - What must not be written over.
 * @throws TextureError when the place does not allow it; its message names the file.
 * @throws RangeError when a size is not a whole number of 1 or more.
 */
export async function writePicture(
  path: string,
  source: WrittenRows,
  options: WritePictureOptions = {},
): Promise<void> {
  const { inputs = [], quality } = options;
  checkSource(source);
  const target = await checkOutput(path, { inputs });
  const extension = extname(path).toLowerCase();
  const format = pictureFormats.find(({ extensions }) => extensions.includes(extension));
  if (format === undefined) throw outOfRange('a kind of picture that is written', 'path', path);
  checkQuality(path, quality);
  if (source.channels === 4) checkOpacity(path);
  checkLimits(path, source, format);
  await writeAtomically(path, target, format.encode(source, quality));
}
