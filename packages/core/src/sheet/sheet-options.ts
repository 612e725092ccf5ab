import { outOfRange } from '../errors/out-of-range.js';
import type { Size } from '../units/parse-size.js';

/** How parts are laid on pages. */
export interface SheetOptions {
  /** Paper, mm. */
  readonly paper: Size<number>;
  /** What the printer cannot reach along every edge, mm, 0 or more; 5 unless told. */
  readonly margin?: number;
  /** From one part to the next, mm, 3 or more, for marks and label; 7 unless told. */
  readonly gap?: number;
  /** How often each part is printed; 1 unless told. */
  readonly copies?: number;
  /** Layers of card that a part is laminated of: all but the first carry its shape alone; 1 unless told. */
  readonly layers?: number;
  /** Whether layers without print are mirrored, to be glued with their printed side inwards. */
  readonly mirror?: boolean;
  /** By how much the pieces of a part that is cut up overlap, mm, 0 or more; 8 unless told. */
  readonly overlap?: number;
  /** Whether parts may be turned on their sides; true unless told. */
  readonly turn?: boolean;
  /** What the foot of every page says beside the check bar. */
  readonly footer?: (page: number, pages: number) => string;
}

/**
 * Refuse options that make no sense, before anything is read.
 *
 * @param options - As the caller gave them, and the bleed of each part.
 * @throws RangeError where one is out of its range.
 */
export function checkSheetOptions(
  options: Omit<SheetOptions, 'paper'> & { readonly bleeds?: readonly number[] },
): void {
  const { margin = 5, gap = 7, overlap = 8, copies = 1, layers = 1, bleeds = [] } = options;
  const within = (value: number, least: number, most: number, name: string): void => {
    if (!(value >= least && value <= most)) throw outOfRange(`${least} to ${most}`, name, value);
  };
  within(margin, 0, 50, 'margin');
  within(gap, 3, 100, 'gap');
  within(overlap, 0, 50, 'overlap');
  for (const bleed of bleeds) within(bleed, 0, 50, 'bleed');
  for (const [name, value] of Object.entries({ copies, layers })) {
    if (!(Number.isInteger(value) && value >= 1 && value <= 100)) {
      throw outOfRange('a whole number from 1 to 100', name, value);
    }
  }
}
