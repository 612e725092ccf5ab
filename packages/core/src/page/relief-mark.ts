import type { PerAxis } from '../surface/measurement.js';

/** What relief is made of, in order: each lies over those before it, in mm of paper from its own origin. */
export type ReliefMark = ReliefBand | ReliefDisc;

/** An upright rectangle, lightened, darkened or left bare. */
export interface ReliefBand {
  /** Tells it from a disc. */
  readonly kind: 'band';
  /** White or black, to be blended by overlay; or bare paper over all that lies under it. */
  readonly tone: 'light' | 'dark' | 'paper';
  /** Its left side. */
  readonly x0: number;
  /** Its right side. */
  readonly x1: number;
  /** Its top. */
  readonly y0: number;
  /** Its foot. */
  readonly y1: number;
  /** How opaque it is at its top, 0 to 1. */
  readonly top: number;
  /** How opaque it is at its foot; evenly more or less from one to the other. */
  readonly foot: number;
}

/** A dome seen from above: lightened towards the light, darkened away from it. */
export interface ReliefDisc {
  /** Tells it from a band. */
  readonly kind: 'disc';
  /** Its middle, from the left. */
  readonly x: number;
  /** Its middle, from the top. */
  readonly y: number;
  /** From its middle to its rim. */
  readonly radius: number;
  /** How opaque it is at the rim: nearest to the light white, farthest black, evenly less to the middle. */
  readonly opacity: number;
  /** Towards the light, of length 1. */
  readonly light: PerAxis<number>;
}
