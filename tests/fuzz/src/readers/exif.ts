import { readExif } from '../../../../packages/core/dist/read/read-exif.js';
import { holdsPosition } from '../../../../packages/core/dist/read/holds-position.js';
import { exifSeed } from '../picture-seeds.js';
import { allFinite, inBytes, type Reader } from '../reader.js';

/** A camera's notes. */
export const exif: Reader = {
  name: 'exif',
  tried: 120,
  words: inBytes([
    'II*\0',
    'MM\0*',
    'II+\0',
    'Exif\0\0',
    '\x87\x69',
    '\x69\x87',
    '\x25\x88',
    '\x05\0',
    '\x0a\0',
    '\0\0\0\0',
    '\xff\xff',
  ]),
  seeds: exifSeed,
  read: async (bytes) => {
    allFinite(await readExif(bytes));
    holdsPosition(bytes, bytes);
  },
};
