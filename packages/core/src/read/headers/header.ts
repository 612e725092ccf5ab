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
}

/** The file breaks its format's own rules; the message says how, to follow the file's name. */
export class BrokenHeader extends Error {}
