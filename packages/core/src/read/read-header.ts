import { showPath } from '../errors/show-path.js';
import { TextureError } from '../errors/texture-error.js';
import { type Limits, limitsFor } from '../limits/limits.js';
import { liftedBy, moreThan } from '../limits/over-limit.js';
import { readAvifHeader } from './headers/avif.js';
import { readGifHeader } from './headers/gif.js';
import { BrokenHeader, type PictureHeader } from './headers/header.js';
import { readJpegHeader } from './headers/jpeg.js';
import { readPngHeader } from './headers/png.js';
import { readTiffHeader } from './headers/tiff.js';
import { readWebpHeader } from './headers/webp.js';
import type { PictureFormat } from './identify-format.js';

/** How much work a picture may ask for. */
export type PictureLimits = Pick<Limits, 'pixels' | 'seconds'>;

/** How much a header may ask for. */
export type HeaderLimits = Pick<Limits, 'pixels' | 'seconds' | 'side'>;

/** A file that holds a picture. */
export interface PictureFile {
  /** What its bytes are. */
  readonly format: PictureFormat;
  /** All of them. */
  readonly bytes: Buffer;
}

const readers: Readonly<Record<PictureFormat, (bytes: Buffer) => PictureHeader>> = {
  avif: readAvifHeader,
  gif: readGifHeader,
  jpeg: readJpegHeader,
  png: readPngHeader,
  tiff: readTiffHeader,
  webp: readWebpHeader,
};

// Honest progressive pictures have about ten scans. Every one is a pass over the whole picture, so
// their product is bounded too: as many as a second may be enough for.
const scansPerSecond = 10;
const scannedPerSecond = 250e6;

function parse(path: string, format: PictureFormat, bytes: Buffer): PictureHeader {
  try {
    return readers[format](bytes);
  } catch (cause) {
    const broken = cause instanceof BrokenHeader;
    if (!broken && !(cause instanceof RangeError)) throw cause;
    const what = broken ? cause.message : 'breaks off inside its header';
    throw new TextureError('damaged-picture', `${path} ${what}`, { cause });
  }
}

/**
 * Read what a picture says of itself and refuse what asks for too much, before anything of it is
 * decoded or allocated.
 *
 * @param path - Its name, for messages alone.
 * @param file - Its bytes, and what they are.
 * @param limits - How much it may ask for.
 * @returns What it says.
 * @throws TextureError `damaged-picture` or `too-large`.
 */
export function readHeader(path: string, file: PictureFile, limits: HeaderLimits): PictureHeader {
  const shown = showPath(path);
  const header = parse(shown, file.format, file.bytes);
  const { width, height, scans } = header;
  if (!(width >= 1 && height >= 1)) {
    throw new TextureError(
      'damaged-picture',
      `${shown} says that it is ${width} x ${height} pixels`,
    );
  }
  checkSize(shown, header, limits);
  const seconds = Math.max(scans / scansPerSecond, (scans * width * height) / scannedPerSecond);
  if (scans > 1 && seconds > limits.seconds) {
    const told = `${shown} is built of ${scans} scans, too many for ${limits.seconds} s`;
    throw new TextureError('too-large', `${told}${liftedBy('seconds', seconds)}`, {
      hint: 'save it again as a plain JPEG or PNG',
      limit: 'seconds',
    });
  }
  return header;
}

function checkSize(shown: string, { width, height }: PictureHeader, limits: HeaderLimits): void {
  const pixels = width * height;
  const said = `${shown} says that it is ${width} x ${height} pixels`;
  const hint = 'crop it or make it smaller first';
  if (pixels > limits.pixels) {
    const told = `${said}, ${moreThan(pixels, limits.pixels)}`;
    throw new TextureError('too-large', `${told}${liftedBy('pixels', pixels)}`, {
      hint,
      limit: 'pixels',
    });
  }
  if (Math.max(width, height) > limits.side) {
    const onPages = limitsFor('print', {}).side;
    const isForPages = limits.side < onPages && Math.max(width, height) <= onPages;
    const laid = `; sheet lays a finished one of up to ${onPages} on pages as it is`;
    throw new TextureError('too-large', `${said}, more than ${limits.side} on a side`, {
      hint: isForPages ? `${hint}${laid}` : hint,
    });
  }
}
