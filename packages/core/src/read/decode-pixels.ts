import { showPath } from '../errors/show-path.js';
import { TextureError } from '../errors/texture-error.js';
import { liftedBy } from '../limits/over-limit.js';
import type { Warning } from '../errors/warning.js';
import { decodeApart } from './decode-apart.js';
import {
  type DecodedSamples,
  DecodeFault,
  type DecodeLimits,
  decodeSamples,
} from './decode-samples.js';
import type { PictureHeader } from './headers/header.js';
import type { PictureLimits } from './read-header.js';
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

function firstLine(text: string): string {
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

function explain(path: string, cause: DecodeFault, limits: PictureLimits): TextureError {
  const { kind, message } = cause;
  if (kind === 'unsupported') {
    return new TextureError('unsupported-format', `${path} ${message}`, { cause, hint });
  }
  if (kind === 'slow') {
    const told = `${path} takes more than ${limits.seconds} s to decode`;
    const lifted = liftedBy('seconds', 6 * limits.seconds);
    return new TextureError('too-large', `${told}${lifted}`, { cause, limit: 'seconds' });
  }
  if (kind === 'large') {
    const told = `${path} takes far more memory to decode than a picture of its size needs`;
    return new TextureError('too-large', told, { cause, hint: 'save it again as PNG or JPEG' });
  }
  if (kind === 'unstarted') {
    const told = `${path} cannot be decoded: the system starts no process to do it in (${message})`;
    const hint = 'save it as a plain PNG, or try again when less is running';
    return new TextureError('unreadable', told, { cause, hint });
  }
  const why = inOurWords(firstLine(message));
  return new TextureError('damaged-picture', `${path} is damaged: ${why}`, { cause });
}

/** A file whose header was read. */
export interface HeadedFile {
  /** All of it. */
  readonly bytes: Buffer;
  /** What it says. */
  readonly header: PictureHeader;
}

function decode({ bytes, header }: HeadedFile, limits: DecodeLimits): Promise<DecodedSamples> {
  const { width, height, isBounded } = header;
  // A decoder in this process is stopped at whole seconds.
  const isHere = isBounded && Number.isInteger(limits.seconds);
  return isHere ? decodeSamples(bytes, limits) : decodeApart(bytes, width * height, limits);
}

/**
 * Decode a picture whose header was read and whose size was found fit.
 *
 * @param path - Its name, escaped, for messages alone.
 * @param file - The file, and its header.
 * @param limits - How much it may ask for, and how much of it is wanted.
 * @returns Its first frame, upright, in sRGB.
 * @throws TextureError `damaged-picture`, `unsupported-format` or `too-large`.
 */
export async function decodePixels(
  path: string,
  file: HeadedFile,
  limits: DecodeLimits,
): Promise<DecodedPicture> {
  const decoded = await decode(file, limits).catch((cause: unknown) => {
    throw cause instanceof DecodeFault ? explain(path, cause, limits) : cause;
  });
  const { stored, whole } = decoded;
  const oddity = decoded.oddity === null ? null : firstLine(decoded.oddity);
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
  const { orientation = 1 } = decoded;
  return {
    stored,
    width: whole.width,
    height: whole.height,
    orientation: orientation >= 1 && orientation <= 8 ? orientation : 1,
    frames: decoded.pages ?? 1,
    space: decoded.space,
    profile: decoded.icc,
    exif: decoded.exif,
    warnings,
  };
}
