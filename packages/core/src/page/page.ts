/** Grey of a layer that shows its shape alone: no print, yet something to cut along; sRGB, 0 to 255. */
export const paleGrey = 226;

/** A point of a page, in mm of paper from its top left corner, right and down. */
export interface PagePoint {
  /** To the right. */
  readonly x: number;
  /** Down. */
  readonly y: number;
}

/** A rectangle of a page or of a picture, in mm of paper. */
export interface Box extends PagePoint {
  /** From left to right. */
  readonly width: number;
  /** From top to bottom. */
  readonly height: number;
}

/** A picture, or a piece of one, on a page. */
export interface PlacedPicture {
  /** Which of the parts. */
  readonly part: number;
  /** Where its upright box lies on the page, once turned. */
  readonly box: Box;
  /** What of the part is shown, in mm of the part, as it stands upright. */
  readonly piece: Box;
  /** Whether it lies on its side: its left edge on top. */
  readonly turned: boolean;
  /** Whether right and left are changed about, before turning. */
  readonly mirrored: boolean;
  /** Whether only its shape is shown, flat and pale, for a layer that carries no print. */
  readonly blank: boolean;
}

/** A line that is drawn. */
export interface PageLine {
  /** Where it begins. */
  readonly from: PagePoint;
  /** Where it ends. */
  readonly to: PagePoint;
  /** Its width in mm. */
  readonly width: number;
}

/** Words on a page. */
export interface PageText {
  /** One line. */
  readonly text: string;
  /** The left end of the line that letters stand on, or its middle. */
  readonly at: PagePoint;
  /** Height of a capital, mm. */
  readonly size: number;
  /** Degrees by which the line is turned from level, counter-clockwise. */
  readonly turn: number;
  /** Which point of the line `at` is. */
  readonly anchor: 'start' | 'middle';
}

/** A page, ready to be drawn. Sizes are what paper is to measure; a printer's error is not in them. */
export interface Page {
  /** In the order in which they are drawn. */
  readonly pictures: readonly PlacedPicture[];
  /** Marks and bars. */
  readonly lines: readonly PageLine[];
  /** Labels. */
  readonly texts: readonly PageText[];
}
