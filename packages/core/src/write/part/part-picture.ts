import type { RowSource } from '../../raster/row-source.js';
import type { PerAxis } from '../../surface/measurement.js';
import type { Size } from '../../units/parse-size.js';

/** A part to be drawn at its exact size, whatever the size of a dot. */
export interface PartPicture {
  /** Its dots; transparent outside an outline. */
  readonly rows: RowSource;
  /** The wall behind it: the same dots, with nothing cut out. */
  readonly wall: RowSource;
  /** The part with its bleed, mm of paper. */
  readonly page: Size<number>;
  /** What of the page is to be cut away on every side, mm. */
  readonly bleed: number;
  /** From the page's top left corner to that of the dots, mm: nought or less. */
  readonly at: PerAxis<number>;
  /** What a dot measures, mm. */
  readonly dot: number;
}

/** What repeats in a part, for those that draw it again and again. */
export interface PartPattern {
  /** One repeat of it. */
  readonly tile: RowSource;
  /** From the page's top left corner to that of a repeat, mm. */
  readonly at: PerAxis<number>;
  /** Its mean colour: `#996655`. */
  readonly colour: string;
  /** Closed lines of points x, y, x, y…, mm from the page's top left corner. */
  readonly loops: readonly Float64Array[];
  /** What counts as inside of them. */
  readonly rule: 'nonzero' | 'evenodd';
}
