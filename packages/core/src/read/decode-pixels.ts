import type { Metadata, Sharp } from 'sharp';
import { showPath } from '../errors/show-path.js';
import { TextureError } from '../errors/texture-error.js';
import type { Warning } from '../errors/warning.js';
import type { Size } from '../units/parse-size.js';
import { loadSharp } from './load-sharp.js';
import type { PictureLimits } from './read-header.js';
import { reducedSize } from './reduced-size.js';
import { countClear, type StoredPicture } from '../raster/stored-picture.js';

/** A picture as decoded, with what its decoder says of it. */
export interface DecodedPicture {
  /** Upright, in sRGB. */
  readonly stored: StoredPicture;
  /** Columns of the picture before it was made smaller. */
  readonly width: number;
  /** Rows, likewise. */
  readonly height: number;
  /** 1 to 8, as stored. */
  readonly orientation: number;
  /** Pictures in the file. */
  readonly frames: number;
  /** How colours were stored: `srgb`, `rgb16`, `b-w`, `grey16`, `cmyk`, `lab`. */
  readonly space: string;
  /** Embedded colour profile. */
  readonly profile: Buffer | undefined;
  /** Embedded EXIF block. */
  readonly exif: Buffer | undefined;
  /** What became of its pixels. */
  readonly warnings: readonly Warning[];
}

const hint = 'save it as grey or RGB with 8 or 16 bits a channel';

// What decoders say where they fill in what is not there; `timeout` is ours.
const losesPixels = /premature|truncated|corrupt JPEG data: (?!\d+ extraneous)|timeout/i;

type Strictness = 'warning' | 'error';

/** How much decoding may ask for, and how much of it is wanted. */
export interface DecodeLimits extends PictureLimits {
  /** Longer side that will do: where the picture's is twice that or more, it is made smaller. */
  readonly longest: number;
}

interface Decoded {
  readonly metadata: Metadata;
  /** The picture as it is. */
  readonly whole: Size<number>;
  readonly stored: StoredPicture;
}

function firstLine(cause: unknown): string {
  const text = cause instanceof Error ? cause.message : String(cause);
  const [line = ''] = text.split('\n', 1);
  return showPath(
    line
      // The names of the decoder's own parts say nothing to whoever took the photo.
      .replace(/(?:Input buffer has corrupt header|vips\w*|\w+(?:load|save)\w*): /gi, '')
      .slice(0, 160)
      .trim()
      .replace(/[.:\s]+$/, ''),
  );
}

async function decodeWith(open: () => Sharp, limits: DecodeLimits): Promise<Decoded> {
  const metadata = await open().metadata();
  const deep = metadata.depth === 'ushort';
  if (!deep && metadata.depth !== 'uchar') {
    throw new TextureError('unsupported-format', `holds samples of kind ${metadata.depth}`, {
      hint,
    });
  }
  const size = reducedSize(metadata.autoOrient, limits.longest);
  const isWhole = size.width === metadata.autoOrient.width;
  // Some decoders make a smaller picture in half the time of a whole one. Made so of encoded light, it
  // is to look at, not to be printed.
  const sized = isWhole
    ? open().autoOrient()
    : open()
        .autoOrient()
        .resize({ ...size, fit: 'fill', kernel: 'linear' });
  const { data, info } = await sized
    .timeout({ seconds: limits.seconds })
    .toColourspace(deep ? 'rgb16' : 'srgb')
    .raw({ depth: deep ? 'ushort' : 'uchar' })
    .toBuffer({ resolveWithObject: true });
  if (info.channels !== 3 && info.channels !== 4) {
    throw new TextureError('unsupported-format', `holds ${metadata.channels} channels`, { hint });
  }
  const whole = isWhole ? info : metadata.autoOrient;
  const { width, height } = info;
  const samples = deep
    ? new Uint16Array(data.buffer, data.byteOffset, data.length / 2)
    : new Uint8Array(data.buffer, data.byteOffset, data.length);
  return { metadata, whole, stored: { width, height, samples } };
}

// Decoders speak of their own parts, each in its own way; what they found out is little.
function inOurWords(why: string): string {
  if (/premature|truncat|too short|unexpected end|end of (file|input)/i.test(why)) {
    return 'it ends before its picture does';
  }
  if (/unsupported|not supported|not implemented/i.test(why)) {
    return 'it is packed in a way that is not read';
  }
  return 'some of it is missing, or was changed';
}

function explain(path: string, cause: unknown, limits: PictureLimits): TextureError {
  const why = firstLine(cause);
  if (/timeout/i.test(why)) {
    const message = `${path} takes over ${limits.seconds} seconds to read`;
    return new TextureError('too-large', message, { cause });
  }
  return new TextureError('damaged-picture', `${path} is damaged: ${inOurWords(why)}`, { cause });
}

// Whole pictures with harmless oddities pass at the second try; half pictures pass at neither.
async function decodeSamples(
  path: string,
  bytes: Buffer,
  limits: DecodeLimits,
): Promise<{ readonly decoded: Decoded; readonly oddity: string | null }> {
  const sharp = await loadSharp();
  sharp.cache(false);
  const decode = (failOn: Strictness): Promise<Decoded> =>
    decodeWith(() => sharp(bytes, { failOn, limitInputPixels: limits.megapixels * 1e6 }), limits);
  try {
    return { decoded: await decode('warning'), oddity: null };
  } catch (first) {
    if (first instanceof TextureError) {
      throw new TextureError(first.code, `${path} ${first.message}`, { cause: first, hint });
    }
    const oddity = firstLine(first);
    if (losesPixels.test(oddity)) throw explain(path, first, limits);
    try {
      return { decoded: await decode('error'), oddity };
    } catch (cause) {
      throw explain(path, cause, limits);
    }
  }
}

/**
 * Decode a picture whose header was read and whose size was found fit.
 *
 * @param path - Its name, escaped, for messages alone.
 * @param bytes - The file.
 * @param limits - How much it may ask for, and how much of it is wanted.
 * @returns Its first frame, upright, in sRGB.
 * @throws TextureError `damaged-picture`, `unsupported-format` or `too-large`.
 */
export async function decodePixels(
  path: string,
  bytes: Buffer,
  limits: DecodeLimits,
): Promise<DecodedPicture> {
  const { decoded, oddity } = await decodeSamples(path, bytes, limits);
  const { metadata, whole, stored } = decoded;
  const clear = countClear(stored);
  const warnings: Warning[] = [];
  if (oddity !== null) {
    const why = /profile|icc/i.test(oddity) ? ': its colour profile makes no sense' : '';
    const message = `${path} bends the rules of its format, but is whole${why}`;
    warnings.push({ code: 'damaged-metadata', message });
  }
  if (clear > 0) {
    const percent = Math.max(1, Math.round((clear / (stored.width * stored.height)) * 100));
    const message = `${percent} % of ${path} lets through what is behind it: laid on white`;
    warnings.push({ code: 'transparency', message });
  }
  const { orientation = 1 } = metadata;
  return {
    stored,
    width: whole.width,
    height: whole.height,
    orientation: orientation >= 1 && orientation <= 8 ? orientation : 1,
    frames: metadata.pages ?? 1,
    space: metadata.space,
    profile: metadata.icc,
    exif: metadata.exif,
    warnings,
  };
}
