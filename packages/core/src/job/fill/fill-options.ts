import type { PartToFill } from '../../fill/fill-rows.js';
import type { JobOptions } from '../job-options.js';
import type { Corner } from './next-wall.js';
import type { PartOptions } from './plan-part.js';
import type { OutlineSource, ReadOutline } from './read-outline.js';
import type { ReferenceOptions } from '../measure/reference-options.js';
import type { WallRelief } from './wall-relief-options.js';
import type { PrintingOptions } from '../print/printing-options.js';
import type { WeatherOptions } from '../weather/weather-options.js';

/** What `fillPhoto` needs to know. */
export interface FillPhotoOptions extends PartOptions, ReferenceOptions, JobOptions {
  /** The file to write. */
  readonly output: string;
  /** Whether slow changes of light and colour are taken out; true unless told. */
  readonly even?: boolean;
  /** How the tile's ends are joined; `auto`, which is `gradient`, unless told. */
  readonly method?: 'auto' | 'blend' | 'cut' | 'gradient';
  /** How true a JPEG is, 1 to 100; 92 unless told, and only with an output of `.jpg`. */
  readonly quality?: number;
  /** What is done to colours so that they print as on the screen; nothing unless told. */
  readonly printing?: PrintingOptions;
  /** The shape to cover, instead of a rectangle: a drawing's, at its size on paper. */
  readonly outline?: OutlineSource;
  /**
   * What an output of `.svg` holds: the part as one picture (`baked`, unless told), or its shape filled
   * with a pattern of one repeat, a smaller file that shows fine lines in some programs.
   */
  readonly svg?: 'baked' | 'pattern';
  /** What weather does to the wall, in mm of paper from its datum; none unless told. */
  readonly weather?: WeatherOptions;
  /** What of the wall is lit: courses that stand out, edges of openings; none unless told. */
  readonly relief?: WallRelief;
  /** Also say where the wall round a corner of this one lies. */
  readonly corner?: Corner;
}

/** A piece of card, and its shape. */
export interface PartToCover {
  /** The rectangle round it. */
  readonly part: PartToFill;
  /** Its shape, or null where that is a rectangle. */
  readonly outline: ReadOutline | null;
}
