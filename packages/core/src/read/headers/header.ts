import type { PerAxis } from '../../surface/measurement.js';

/** What a file says of its picture before a pixel is decoded. */
export interface PictureHeader {
  /** Columns as stored, before any turning upright. */
  readonly width: number;
  /** Rows as stored. */
  readonly height: number;
  /** Dots per inch as the format's own fields say, not yet judged, or null. */
  readonly dpi: PerAxis<number> | null;
  /** Passes over the picture that a decoder has to make, 1 or more. */
  readonly scans: number;
  /** Whether more pictures follow the first, where only the header tells. */
  readonly animated: boolean;
  /**
   * Whether time and memory of its decoding follow from its size: what it could come to at worst was
   * measured. All else is decoded in a process of its own.
   */
  readonly isBounded: boolean;
  /** Colours stated by code rather than by profile, or null. */
  readonly codes: ColourCodes | null;
}

/**
 * Colours by number.
 *
 * @see ITU-T H.273, 8.1 colour primaries, 8.2 transfer characteristics
 */
export interface ColourCodes {
  /** 1 those of sRGB, 2 not stated, 9 BT.2020, 12 Display P3. */
  readonly primaries: number;
  /** 13 sRGB, 2 not stated, 8 linear, 16 PQ, 18 HLG. */
  readonly transfer: number;
}

/** Pixels that a decoder which cannot be stopped between rows gets through in half a second, in 200 MB. */
export const soonDecoded = 16e6;

/** The file breaks its format's own rules; the message says how, to follow the file's name. */
export class BrokenHeader extends Error {}
