import type { DrawingAttribute, DrawingElement } from '../drawing.js';
import type { Box } from '../geometry/box.js';
import type { Aspect } from '../geometry/fit-view.js';
import type { LinkBase } from '../xml-base.js';
import type { Matrix, Spot } from '../../numeric/matrix.js';

/** One place at which a picture shows. */
export interface PicturePlace {
  /** From the user units that the `image` stands in to millimetres of paper. */
  readonly matrix: Matrix;
  /** What it is set into, in user units. */
  readonly rect: Box;
  /** Four points each, in millimetres of paper: what shows lies inside all of them. */
  readonly clips: readonly (readonly Spot[])[];
}

/** One `image` element, and where it shows. */
export interface PlacedPicture {
  /** The element. */
  readonly element: DrawingElement;
  /** Its attributes. */
  readonly attributes: readonly DrawingAttribute[];
  /** What names its picture. */
  readonly href: DrawingAttribute;
  /** From where that counts, or null for the drawing. */
  readonly base: LinkBase | null;
  /** The same again under its other name, or null. */
  readonly again: DrawingAttribute | null;
  /** What it is set into, in user units, or null where that cannot be told. */
  readonly rect: Box | null;
  /** How it is set into its rectangle. */
  readonly aspect: Aspect;
  /** Where it shows: none where nothing uses it. */
  readonly places: readonly PicturePlace[];
  /** What it is part of that has coordinates of its own, such as a `pattern`, or null. */
  readonly inside: string | null;
  /** Why it cannot be told where it shows, or null. */
  readonly doubt: string | null;
  /** Whether something is measured by its box, so that the box must stay. */
  readonly boxMatters: boolean;
  /** Whether its pixels are to be seen as squares. */
  readonly squares: boolean;
  /** Whether it is clipped, masked or filtered by an attribute or style of its own. */
  readonly isCovered: boolean;
}

/** Every picture of a drawing, and where it shows. */
export interface Placement {
  /** In document order. */
  readonly pictures: readonly PlacedPicture[];
  /** Whether the page's size is stated in units that paper has. */
  readonly isTrueSize: boolean;
  /** Whether elements may be renamed and added without a style sheet's rule ceasing to hold. */
  readonly steady: boolean;
}
