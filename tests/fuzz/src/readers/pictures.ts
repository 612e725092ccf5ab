import { decodePixels } from '../../../../packages/core/dist/read/decode-pixels.js';
import { holdsPosition } from '../../../../packages/core/dist/read/holds-position.js';
import { identifyFormat } from '../../../../packages/core/dist/read/identify-format.js';
import { jpegCoding } from '../../../../packages/core/dist/read/jpeg-coding.js';
import { judgeColours } from '../../../../packages/core/dist/read/judge-colours.js';
import { lookAtPicture } from '../../../../packages/core/dist/read/look-at-picture.js';
import { openPrint } from '../../../../packages/core/dist/read/open-print.js';
import { readExif } from '../../../../packages/core/dist/read/read-exif.js';
import { readHeader } from '../../../../packages/core/dist/read/read-header.js';
import { stripJpeg } from '../../../../packages/core/dist/read/strip-jpeg.js';
import { uprightDpi } from '../../../../packages/core/dist/read/upright-dpi.js';
import { pictureSeeds } from '../picture-seeds.js';
import { allFinite, inBytes, promise, type Reader } from '../reader.js';

const limits = { pixels: 20e6, side: 1e5, seconds: 10 };

// As for a photo.
async function readPicture(bytes: Buffer): Promise<void> {
  const format = identifyFormat('photo', bytes);
  const header = readHeader('photo', { format, bytes }, limits);
  const picture = await decodePixels(
    'photo',
    // Here, where what it does to this process is seen.
    { bytes, header: { ...header, isBounded: true } },
    { ...limits, longest: 500 },
  );
  const { width, height, samples } = picture.stored;
  const channels = samples.length / (width * height);
  promise(channels === 3 || channels === 4, `3 or 4 channels, not ${channels}`);
  const pixels = [picture.width * picture.height, header.width * header.height];
  promise(Math.max(...pixels) <= limits.pixels, 'no more pixels than are allowed');
  judgeColours('photo', header, picture);
  allFinite(uprightDpi(header, await readExif(picture.exif), picture.orientation));
}

// As for slim and for pages.
async function readAsPart(bytes: Buffer): Promise<void> {
  allFinite({ ...(await lookAtPicture('photo', bytes)), profile: null });
  const print = await openPrint('photo', bytes, { change: null, blanks: true });
  allFinite([print.pixels, print.dpi]);
  const format = identifyFormat('photo', Buffer.from(print.bytes));
  promise(format === 'png' || format === 'jpeg', 'a PNG or a JPEG goes on paper');
  promise(!holdsPosition(Buffer.from(print.bytes), undefined), 'nobody is told where it was taken');
  const plain = Buffer.from(print.bytes);
  const header = readHeader('photo', { format, bytes: plain }, limits);
  const again = await decodePixels(
    'photo',
    { bytes: plain, header },
    { ...limits, longest: Infinity },
  );
  promise(
    again.width === print.pixels.width && again.height === print.pixels.height,
    'as large as it is said to be',
  );
}

const words: Readonly<Record<keyof typeof pictureSeeds, readonly string[]>> = {
  png: [
    ...['IHDR', 'IDAT', 'IEND', 'PLTE', 'tRNS', 'pHYs', 'iCCP', 'eXIf', 'acTL', 'fcTL', 'cICP'],
    'gAMA',
    'zTXt',
    'iTXt',
    'CgBI',
  ],
  jpeg: [
    '\u00ff',
    'JFIF\0',
    'Exif\0\0',
    'ICC_PROFILE\0',
    'Adobe\0',
    'http://ns.adobe.com/xap/1.0/\0',
    'gaugerod: for prints at 600 dpi',
  ],
  tiff: [
    'II*\0',
    'MM\0*',
    'II+\0\x08\0\0\0',
    '\x01\x01',
    '\x00\x01',
    '\x11\x01',
    '\x17\x01',
    '\x44\x01',
    '\x03\0',
    '\x10\0',
  ],
  webp: ['RIFF', 'WEBP', 'VP8 ', 'VP8L', 'VP8X', 'ALPH', 'ANIM', 'ANMF', 'ICCP', 'EXIF', 'XMP '],
  gif: ['GIF87a', 'GIF89a', '\x21\u00f9\x04', '\x21\u00ff\x0bNETSCAPE2.0', '\x2c', '\x3b', '\0'],
  avif: [
    'ftyp',
    'avif',
    'avis',
    'heic',
    'mif1',
    'meta',
    'iprp',
    'ispe',
    'iloc',
    'pitm',
    'irot',
    'mdat',
    'colr',
    'nclx',
  ],
};

const names = Object.keys(pictureSeeds) as (keyof typeof pictureSeeds)[];

/** Pictures of every format: head, whole decoding, and what goes on paper. */
export const pictures: readonly Reader[] = names.map((name) => ({
  name,
  tried: 40,
  words: inBytes(words[name]),
  seeds: pictureSeeds[name],
  read: async (bytes) => {
    try {
      await readPicture(bytes);
    } finally {
      // Whether or not it is a photo.
      if (bytes.length % 4 === 0) await readAsPart(bytes);
    }
  },
}));

/** What a JPEG says beside its picture, taken out. */
export const jpegParts: Reader = {
  name: 'jpeg-parts',
  tried: 2000,
  words: inBytes(words.jpeg),
  seeds: pictureSeeds.jpeg,
  read: (bytes) => {
    jpegCoding(bytes);
    const plain = stripJpeg(bytes);
    promise(plain.length <= bytes.length + 64, 'nothing is made longer');
  },
};
