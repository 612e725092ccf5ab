import type { RowSource } from '../../raster/row-source.js';

/** A kind of picture that is written. */
export interface PictureWriter {
  /** As people call it. */
  readonly name: string;
  /** What its files' names end with, in lower case, with the dot. */
  readonly extensions: readonly string[];
  /** Pixels along a side at most. */
  readonly maxSide: number;
  /**
   * Encode a picture, row by row.
   *
   * @param source - Size within the limits.
   * @returns The bytes of the file, piece by piece, in order.
   */
  readonly encode: (source: RowSource) => AsyncIterable<Uint8Array>;
}
