import type { PerAxis } from '../surface/measurement.js';

/** What relief is made of, in order: each lies over those before it, in mm of paper from its own origin. */
export type ReliefMark = ReliefBand | ReliefDisc | ReliefShape;

/** What any mark may be. */
interface AnyMark {
  /** Whether it is the one before it, laid over itself; not unless told. */
  readonly isAgain?: boolean;
  /** Whether it is what lies deeper, as a whole: broad, and its own colour is to be seen; not unless told. */
  readonly isFace?: boolean;
}

/** An upright rectangle, lightened, darkened or left bare. */
export interface ReliefBand extends AnyMark {
  /** Tells it from others. */
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
export interface ReliefDisc extends AnyMark {
  /** Tells it from others. */
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

/** Something of any outline, lightened and darkened: its pieces meet, and are blended as one. */
export interface ReliefShape extends AnyMark {
  /** Tells it from others. */
  readonly kind: 'shape';
  /** Apart from one another. */
  readonly pieces: readonly ShadedPiece[];
  /** Where alone it shows, or null for everywhere. */
  readonly clip: ShapeClip | null;
}

/** Where a shape shows. */
export interface ShapeClip {
  /** Closed lines of points x, y, x, y… that cross no other: outer ones run clockwise, holes the other way. */
  readonly loops: readonly Float64Array[];
  /** Whether it shows inside them, or outside. */
  readonly side: 'inside' | 'outside';
}

/** A piece of a shape, its shade even, or changing along a direction. */
export interface ShadedPiece {
  /** Closed lines of points x, y, x, y…, all running one way round: what any of them bounds. */
  readonly loops: readonly Float64Array[];
  /** The direction along which shade changes, of length 1. */
  readonly toward: PerAxis<number>;
  /** Along it, in order: between two evenly more or less, past the ends as at them. At least one. */
  readonly stops: readonly ShadeStop[];
}

/** How light or dark a place is. */
export interface ShadeStop {
  /** How far along, mm from the origin. */
  readonly at: number;
  /** From -1, opaque black, to 1, opaque white; both blended by overlay. */
  readonly shade: number;
}
