import type { LimitOptions } from '../limits/limits.js';
import type { Raster } from '../raster/raster.js';
import type { PerAxis } from '../surface/measurement.js';
import type { PhotoExif } from '../surface/photo-exif.js';
import type { Warning } from '../errors/warning.js';
import type { PictureFormat } from './identify-format.js';

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
export interface ReadPhotoOptions extends Pick<
  LimitOptions,
  'mostPixels' | 'mostBytes' | 'mostSeconds'
> {
  /**
   * Longer side in pixels that will do to look at, 16 or more: a photo of twice that or more is made
   * smaller while it is decoded, the more quickly. As it is, unless told.
   */
  readonly longest?: number;
}
