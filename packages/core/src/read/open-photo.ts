import { createHash } from 'node:crypto';
import { outOfRange } from '../errors/out-of-range.js';
import { showPath } from '../errors/show-path.js';
import type { Warning } from '../errors/warning.js';
import { type LineSource, toLines } from '../raster/line-source.js';
import { type DecodedPicture, decodePixels } from './decode-pixels.js';
import type { DecodeLimits } from './decode-samples.js';
import type { PictureHeader } from './headers/header.js';
import { limitsOf } from './held-limits.js';
import { identifyFormat } from './identify-format.js';
import { judgeColours } from './judge-colours.js';
import type { Photo, ReadPhotoOptions } from './photo.js';
import { readBytes } from './read-bytes.js';
import { readExif } from './read-exif.js';
import { type HeaderLimits, readHeader } from './read-header.js';
import { refuseUnheld } from './refuse-unheld.js';
import { holdLight, toLightLines } from '../raster/stored-picture.js';
import { uprightDpi } from './upright-dpi.js';

/** A photo that may be looked at, smaller, while all of it is still being decoded. */
export interface OpenedPhoto {
  /** The photo, made smaller where it is large enough for that. */
  readonly look: Photo;
  /**
   * Decode all of it, once, in the decoder's own threads.
   *
   * @returns Its lines, each brought to linear light when it is asked for.
   */
  readonly lines: () => Promise<LineSource>;
  /**
   * The same, held in linear light once that is asked for: twelve bytes a pixel.
   *
   * @returns The photo, not made smaller.
   */
  readonly whole: () => Promise<Photo>;
}

/** How much of a photo is to be held. */
export interface OpenPhotoOptions extends Pick<ReadPhotoOptions, 'longest'> {
  /** Bytes of memory that each of its pixels comes to take, where all of it is worked on at once. */
  readonly perPixel?: number;
}

function toLimits({ longest = Infinity }: OpenPhotoOptions): HeaderLimits & DecodeLimits {
  if (!(longest >= 16)) throw outOfRange('16 pixels or more', 'longest', longest);
  return { ...limitsOf('photo'), longest };
}

/**
 * Open a photo: see {@link readPhoto} for what is read, and what is refused. All that is ever decoded of it
 * is of the same bytes.
 *
 * @param path - Of the file.
 * @param options - How much of it will do to look at.
 * @returns The photo to look at, and all of it for whoever asks.
 * @throws TextureError when the file does not allow it; its message names the file.
 * @throws RangeError when that is next to nothing.
 */
export async function openPhoto(
  path: string,
  options: OpenPhotoOptions = {},
): Promise<OpenedPhoto> {
  const limits = toLimits(options);
  const bytes = await readBytes(path, 'photo');
  const format = identifyFormat(path, bytes);
  const header = readHeader(path, { format, bytes }, limits);
  const shown = showPath(path);
  if (options.perPixel !== undefined) refuseUnheld(shown, header, options.perPixel);
  const file = { bytes, header };
  const decoding = decodePixels(shown, file, limits);
  // Hashed while the decoder's own threads work.
  const sha256 = createHash('sha256').update(bytes).digest('hex');
  const picture = await decoding;
  const { width, height, orientation, stored } = picture;
  const exif = await readExif(picture.exif);
  const look: Photo = {
    path,
    raster: holdLight(stored),
    step: width / stored.width,
    width,
    height,
    sha256,
    bytes: bytes.length,
    format,
    dpi: uprightDpi(header, exif, orientation),
    orientation,
    exif: exif.camera,
    warnings: warn(shown, header, picture),
  };
  if (look.step === 1) {
    const lines = (): Promise<LineSource> => Promise.resolve(toLines(look.raster));
    return { look, lines, whole: () => Promise.resolve(look) };
  }
  let all: Promise<DecodedPicture> | undefined;
  const decode = (): Promise<DecodedPicture> =>
    (all ??= decodePixels(shown, file, { ...limits, longest: Infinity }));
  return {
    look,
    lines: async () => toLightLines((await decode()).stored),
    whole: async () => ({ ...look, step: 1, raster: holdLight((await decode()).stored) }),
  };
}

function warn(shown: string, header: PictureHeader, picture: DecodedPicture): readonly Warning[] {
  const warnings = [...picture.warnings, ...judgeColours(shown, header, picture)];
  if (!header.animated && picture.frames <= 1) return warnings;
  const message = `${shown} holds several pictures: the first is taken`;
  return [...warnings, { code: 'several-frames', message }];
}
