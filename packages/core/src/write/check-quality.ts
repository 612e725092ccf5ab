import { extname } from 'node:path';
import { outOfRange } from '../errors/out-of-range.js';
import { pictureFormats } from './formats/index.js';

/**
 * Refuse a quality that makes no sense, before the long work that leads to it.
 *
 * @param path - Of the picture to be written.
 * @param quality - As the caller gave it, or undefined where nobody did.
 * @throws RangeError when it is not from 1 to 100, or told of a kind that is true to the last bit.
 */
export function checkQuality(path: string, quality: number | undefined): void {
  if (quality === undefined) return;
  if (!(Number.isInteger(quality) && quality >= 1 && quality <= 100)) {
    throw outOfRange('a whole number from 1 to 100', 'quality', quality);
  }
  const extension = extname(path).toLowerCase();
  const lossy = pictureFormats.filter(({ quality: usual }) => usual !== undefined);
  if (lossy.some(({ extensions }) => extensions.includes(extension))) return;
  const kinds = lossy.flatMap(({ extensions }) => extensions).join(' or ');
  throw outOfRange(
    `an output of ${kinds}, the rest being true to the last bit,`,
    'quality',
    quality,
  );
}
