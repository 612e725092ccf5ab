import { encodeSrgbRun } from '../colour/srgb.js';
import type { Dpi } from '../units/units.js';
import type { Again } from './list-again.js';
import { toLines } from './line-source.js';
import type { Raster } from './raster.js';

/** A picture as a writer eats it: row by row, never held whole. */
export interface RowSource {
  /** Columns, 1 or more. */
  readonly width: number;
  /** Rows, 1 or more. */
  readonly height: number;
  /** Print resolution that the file is to carry, or null for none. */
  readonly dpi: Dpi | null;
  /** What the file is to say of its colours, in ASCII; nothing unless told. */
  readonly note?: string;
  /** Samples a pixel: 3 for RGB, which holds unless told, or 4 for RGBA, its colours not multiplied. */
  readonly channels?: 3 | 4;
  /**
   * Rows after which the picture repeats itself byte for byte, where it does: a whole number of 1
   * or more. A writer that knows it may ask for the first `period` rows alone.
   */
  readonly period?: number;
  /**
   * Columns after which every row repeats itself byte for byte, where they do: a whole number of 1 or
   * more.
   */
  readonly across?: number;
  /**
   * Rows and columns that are the same as others before them, where more of them are than `period` and
   * `across` say: in order, apart, and together all that a writer need not look at.
   */
  readonly again?: {
    /** Of rows. */
    readonly rows: readonly Again[];
    /** Of columns, in every row. */
    readonly columns: readonly Again[];
  };
  /**
   * Whether no two stretches of it are alike, so that an encoder looks in vain for what it has seen before; it
   * may find some unless told.
   */
  readonly isVaried?: boolean;
  /**
   * Begin at the top.
   *
   * @returns `height` rows of `channels * width` bytes, RGBRGB… or RGBARGBA… in sRGB. The same buffer may be used again
   * for the next row: who keeps a row copies it.
   */
  readonly rows: () => Iterable<Uint8Array>;
}

function* encodeRows(raster: Raster): Generator<Uint8Array> {
  const { width, height, line } = toLines(raster);
  const row = new Uint8Array(width * 3);
  for (let y = 0; y < height; y++) {
    yield encodeSrgbRun([line(0, y), line(1, y), line(2, y)], 0, row);
  }
}

/**
 * Hand a whole raster to a writer.
 *
 * @param raster - In linear light; clipped to 0 to 1 as it is written.
 * @param dpi - Print resolution that the file is to carry, or null for none.
 * @returns The same picture, row by row.
 */
export function toRows(raster: Raster, dpi: Dpi | null = null): RowSource {
  const { width, height } = raster;
  return { width, height, dpi, rows: () => encodeRows(raster) };
}
