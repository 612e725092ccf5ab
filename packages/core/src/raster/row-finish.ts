import type { PerAxis } from '../surface/measurement.js';

/** Pixels of a row, one beside the other. */
export interface FinishRun {
  /** The first. */
  readonly from: number;
  /** The one after the last. */
  readonly to: number;
  /** Whether what becomes of a pixel depends on its own colour alone, not on where in the run it lies. */
  readonly even: boolean;
}

/** Something done to the rows of a picture as they are made, before they are rounded to bytes. */
export interface RowFinish {
  /** Whether every run of every row is even: what repeats then still does. It may not unless told. */
  readonly isEven?: boolean;
  /**
   * Tell what is done along a row.
   *
   * @param y - The row, from the page's first.
   * @returns Runs that cover it from side to side, in order.
   */
  readonly runs: (y: number) => readonly FinishRun[];
  /**
   * Change some pixels of the row last asked for, all of them of one run. Of a row it is asked from left to
   * right; what comes again of an even run is left out.
   *
   * @param colours - RGBRGB… from the first of them on, 0 to 1 as encoded in sRGB; changed in place. What leaves 0
   * to 1 is clipped once all finishes are done.
   * @param y - The row.
   * @param from - The first of them.
   */
  readonly change: (colours: Float32Array, y: number, from: number) => void;
}

/** A page, or a piece of one, that a finish is made for. */
export interface FinishPage {
  /** Columns, bleed included. */
  readonly width: number;
  /** Rows, bleed included. */
  readonly height: number;
  /** Dots from its top left corner to that of the part without bleed; seldom whole under an outline. */
  readonly inset: PerAxis<number>;
}

/** Makes a finish for a page, once that is known. */
export type MakeFinish = (page: FinishPage) => RowFinish;
