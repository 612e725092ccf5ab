import { createHash } from 'node:crypto';
import { outOfRange } from '../errors/out-of-range.js';
import { showPath } from '../errors/show-path.js';
import type { Warning } from '../errors/warning.js';
import type { Raster } from '../raster/raster.js';
import type { PerAxis } from '../surface/measurement.js';
import type { PhotoExif } from '../surface/photo-exif.js';
import { type DecodeLimits, decodePixels } from './decode-pixels.js';
import type { PictureHeader } from './headers/header.js';
import { identifyFormat, type PictureFormat } from './identify-format.js';
import { judgeColours } from './judge-colours.js';
import { readBytes } from './read-bytes.js';
import { type ExifFields, readExif } from './read-exif.js';
import { readHeader } from './read-header.js';

/** A photo as read: its picture, and what its file says of itself. */
export interface Photo {
  /** As given. */
  readonly path: string;
  /** Upright, in linear light, in sRGB's primaries, on white; perhaps made smaller. */
  readonly raster: Raster;
  /** Pixels of the photo to one of `raster`, each way: 1 unless it was made smaller. */
  readonly step: number;
  /** Columns of the upright picture. */
  readonly width: number;
  /** Rows of the upright picture. */
  readonly height: number;
  /** Of the file's bytes, in lower-case hexadecimal. */
  readonly sha256: string;
  /** Size of the file. */
  readonly bytes: number;
  /** By its bytes, never by its name. */
  readonly format: PictureFormat;
  /**
   * Dots per inch of the upright picture as the file says, or null where it says none, or one under
   * 10 or over 10,000. Never used to measure: cameras and programs write it without looking.
   */
  readonly dpi: PerAxis<number> | null;
  /** How the picture was stored, 1 upright to 8; `raster` is upright already. */
  readonly orientation: number;
  /** The camera's notes, or null. */
  readonly exif: PhotoExif | null;
  /** What the user should know. */
  readonly warnings: readonly Warning[];
}

/** What a caller may ask of {@link readPhoto}. */
export interface ReadPhotoOptions {
  /** Pixels that the picture may hold, in millions: 100 by default. */
  readonly maxMegapixels?: number;
  /** Bytes that the file may hold, in millions: 512 by default. */
  readonly maxMegabytes?: number;
  /** Seconds that decoding may take: 10 by default. */
  readonly maxSeconds?: number;
  /**
   * Longer side in pixels that will do to look at, 16 or more: a photo of twice that or more is made
   * smaller while it is decoded, the more quickly. As it is, unless told.
   */
  readonly longest?: number;
}

function toLimits(options: ReadPhotoOptions): DecodeLimits {
  const { maxMegapixels = 100, maxMegabytes = 512, maxSeconds = 10 } = options;
  const { longest = Infinity } = options;
  if (!(longest >= 16)) throw outOfRange('16 pixels or more', 'longest', longest);
  for (const [name, value] of Object.entries({ maxMegapixels, maxMegabytes, maxSeconds })) {
    if (!(value > 0 && value < Infinity)) throw outOfRange('a finite number above 0', name, value);
  }
  const seconds = Math.ceil(maxSeconds);
  return { megapixels: maxMegapixels, megabytes: maxMegabytes, seconds, longest };
}

function judgeDpi(dpi: PerAxis<number> | null): PerAxis<number> | null {
  if (dpi === null) return null;
  return [dpi.x, dpi.y].every((value) => value >= 10 && value <= 10_000) ? dpi : null;
}

// As a file says it, turned with the picture: 5 to 8 lie on their sides.
function uprightDpi(header: PictureHeader, exif: ExifFields, orientation: number): Photo['dpi'] {
  const dpi = judgeDpi(header.dpi) ?? judgeDpi(exif.dpi);
  return dpi !== null && orientation >= 5 ? { x: dpi.y, y: dpi.x } : dpi;
}

/**
 * Read a photo: JPEG, PNG, WebP, TIFF, AVIF or GIF, told by its bytes. The file is read once, so
 * that hash and pixels are of the same bytes; it is refused past its limits before anything of it is
 * decoded. Several frames: the first, with a warning. 16 bits stay 16 bits.
 *
 * @param path - Of the file.
 * @param options - How much it may ask for.
 * @returns The picture, upright, in linear light, and what its file says of itself.
 * @throws TextureError when the file does not allow it; its message names the file.
 * @throws RangeError when a limit is not a finite number above 0.
 */
export async function readPhoto(path: string, options: ReadPhotoOptions = {}): Promise<Photo> {
  const limits = toLimits(options);
  const bytes = await readBytes(path, { maxBytes: limits.megabytes * 1e6 });
  const format = identifyFormat(path, bytes);
  const header = readHeader(path, { format, bytes }, limits);
  const shown = showPath(path);
  const decoding = decodePixels(shown, bytes, limits);
  const exifFields = async (block: Buffer | undefined): Promise<ExifFields> =>
    block === undefined ? { dpi: null, camera: null } : readExif(block);
  // Hashed while the decoder's own threads work.
  const sha256 = createHash('sha256').update(bytes).digest('hex');
  const picture = await decoding;
  const exif = await exifFields(picture.exif);
  const warnings = [...picture.warnings, ...judgeColours(shown, header, picture)];
  if (header.animated || picture.frames > 1) {
    const message = `${shown} holds several pictures: the first is taken`;
    warnings.push({ code: 'several-frames', message });
  }
  const { raster, width, height, orientation } = picture;
  return {
    path,
    raster,
    step: width / raster.width,
    width,
    height,
    sha256,
    bytes: bytes.length,
    format,
    dpi: uprightDpi(header, exif, orientation),
    orientation,
    exif: exif.camera,
    warnings,
  };
}
