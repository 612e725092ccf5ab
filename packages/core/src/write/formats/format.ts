import type { WrittenRows } from '../written-rows.js';

/** Bytes that stand where some were written already, such as a length known only at the end. */
interface Patch {
  /** Where in the file, 0 or more. */
  readonly at: number;
  /** What stands there. */
  readonly bytes: Uint8Array;
}

/** What an encoder hands to the file: the next bytes, or bytes that go back. */
export type Piece = Uint8Array | Patch;

/** A kind of picture that is written. */
export interface PictureWriter {
  /** As people call it. */
  readonly name: string;
  /** What its files' names end with, in lower case, with the dot; the first is the usual one. */
  readonly extensions: readonly string[];
  /** Pixels along a side at most. */
  readonly maxSide: number;
  /** Pixels in all at most, where the encoder cannot do without holding them. */
  readonly maxPixels?: number;
  /** How true it is unless told, 1 to 100, where it is not true to the last bit. */
  readonly quality?: number;
  /** Whether it knows nothing of what is transparent. */
  readonly isOpaque?: boolean;
  /**
   * Encode a picture, row by row.
   *
   * @param source - Size within the limits.
   * @param quality - 1 to 100, for those that have one.
   * @returns The file, piece by piece, in order.
   */
  readonly encode: (source: WrittenRows, quality: number | undefined) => AsyncIterable<Piece>;
}
