import type { PrintPicture } from '../read/open-print.js';
import type { PerAxis } from '../surface/measurement.js';
import type { Size } from '../units/parse-size.js';

/** A part that is to be laid on a page. */
export interface OpenPart {
  /** What it shows. */
  readonly picture: PrintPicture;
  /** How fine that is. */
  readonly dpi: PerAxis<number>;
  /** What the part measures, mm. */
  readonly size: Size<number>;
  /** What all of the picture measures, mm: at least as much. */
  readonly pictureSize: Size<number>;
  /** From the part's top left corner to the picture's, mm. */
  readonly at: PerAxis<number>;
}
