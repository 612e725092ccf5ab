import type { Spot } from '../../numeric/matrix.js';

/** An ellipse, or a piece of one. */
export interface EllipseArc {
  /** Its centre. */
  readonly centre: Spot;
  /** From its centre to where its angle is nought. */
  readonly across: Spot;
  /** From its centre to a quarter of a turn on. */
  readonly down: Spot;
  /** Where it begins, in radians. */
  readonly from: number;
  /** How far it goes, of any sign. */
  readonly by: number;
}

/** What follows a shape's edge, in the shape's own units. */
export interface Pen {
  /**
   * Begin another line.
   *
   * @param spot - Where.
   */
  moveTo(spot: Spot): void;
  /**
   * Go straight on.
   *
   * @param spot - Where to.
   */
  lineTo(spot: Spot): void;
  /**
   * Follow a Bézier curve of two or three degrees.
   *
   * @param given - Its points from the first, which is where the line is, to the last.
   */
  curveTo(given: readonly Spot[]): void;
  /**
   * Follow an ellipse, from where the line is.
   *
   * @param arc - Which piece of it.
   */
  arcTo(arc: EllipseArc): void;
  /** Go back to where the line began. */
  close(): void;
  /** Leave the line as it is. */
  end(): void;
}
