import type { DrawnMark } from '../../page/drawn.js';
import type { PerAxis } from '../../surface/measurement.js';
import type { Size } from '../../units/parse-size.js';

/** A picture that pages show. */
export interface PagePicture {
  /** A PNG or a JPEG in sRGB. */
  readonly bytes: Uint8Array;
  /** A PNG of its shape, or null where it is a rectangle. */
  readonly shape: Uint8Array | null;
  /** Its columns and rows. */
  readonly pixels: Size<number>;
  /** What all of it measures on paper, mm. */
  readonly size: Size<number>;
  /** From the part's top left corner to its own, mm. */
  readonly at: PerAxis<number>;
}

/** A drawing that pages show. */
export interface PageDrawing {
  /** In the order in which they are painted. */
  readonly marks: readonly DrawnMark[];
  /** What of them are pictures. */
  readonly pictures: readonly Pick<PagePicture, 'bytes' | 'shape' | 'pixels'>[];
}

/** What pages are drawn on. */
export interface PageSheet {
  /** The paper, mm. */
  readonly paper: Size<number>;
  /** What the printer makes of a millimetre: all is drawn that much smaller or larger the other way. */
  readonly printer: PerAxis<number>;
}

/**
 * List the files that a part shows.
 *
 * @param part - A picture, or a drawing of some.
 * @param blank - Whether only its shape is shown.
 * @returns PNGs and JPEGs, each as often as the part has it.
 */
export function shownBy(part: PagePicture | PageDrawing, blank: boolean): readonly Uint8Array[] {
  const shown = 'marks' in part ? part.pictures : [part];
  return shown.flatMap(({ bytes, shape }) => (blank ? (shape ?? []) : bytes));
}
