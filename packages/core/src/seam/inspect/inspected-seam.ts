/** How well a picture meets itself along one axis. */
export interface Seam {
  /** Its parts together, but for `mirror`, of which the worst counts most: 1 is the border. */
  readonly seamScore: number;
  /** Whether the score is 1 or less; never where the picture is too small to tell, whose score is 0. */
  readonly seamless: boolean;
}

/** The same, part by part: each 0 or more, 100 at most, and 1 is the border. */
export interface InspectedSeam extends Seam {
  /** The step from pixel to pixel across the wrap, over the largest of steps inside. */
  readonly steps: number;
  /** The step of lightness, over a few widths. */
  readonly light: number;
  /** The step of colour without lightness, over the same widths. */
  readonly colour: number;
  /** How badly joints, courses and bond go on. */
  readonly joints: number;
  /** How much alike the two sides are in a mirror: over 1 bricks come out double. */
  readonly mirror: number;
  /** By how much it is lighter after the wrap than before: CIE 1976 lightness, 100 from black to white. */
  readonly lightStep: number;
  /** By how much its colour differs: CIE 1976 a* and b*, as a distance. */
  readonly colourStep: number;
  /** Pixels by which lines that cross the wrap are broken, or null where none can be followed. */
  readonly brokenBy: number | null;
  /** Pixels by which a course at the wrap is too high, below 0 too low, or null without courses. */
  readonly courseOff: number | null;
}
