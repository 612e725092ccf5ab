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
  /**
   * Tell what is done along a row.
   *
   * @param y - The row, from the finish's own origin.
   * @returns Runs that cover it from side to side.
   */
  readonly runs: (y: number) => readonly FinishRun[];
  /**
   * Change a run of pixels, or the beginning of one, of the row last asked for.
   *
   * @param colours - RGBRGB… from its first pixel on, 0 to 1 as encoded in sRGB; changed in place.
   * @param y - The row.
   * @param from - The run's first pixel.
   */
  readonly change: (colours: Float32Array, y: number, from: number) => void;
}
