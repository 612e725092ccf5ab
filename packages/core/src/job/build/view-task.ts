import type { ReportFound } from '../../report/report-content.js';
import type { Size } from '../../units/parse-size.js';
import type { Dpi } from '../../units/units.js';
import type { ReferenceOptions } from '../measure/reference-options.js';

/** Something to look at that a report shows. */
export type ViewTask = FoundTask | TiledTask | ShownTask;

interface Drawn {
  /** What the files that it is drawn from are to be, by path, in SHA-256; null where there is to be none. */
  readonly inputs: Readonly<Record<string, string | null>>;
  /** Pixels that its picture may have, of all that a report may hold. */
  readonly mostPixels: number;
}

/** A photo with what was found drawn over it. */
export interface FoundTask extends Drawn {
  /** Tells it from the others. */
  readonly kind: 'found';
  /** The photo. */
  readonly photo: string;
  /** What is known of it. */
  readonly options: ReferenceOptions;
}

/** A surface, three by three repeats of it. */
export interface TiledTask extends Drawn {
  /** Tells it from the others. */
  readonly kind: 'tiled';
  /** The folder of the job. */
  readonly folder: string;
  /** What the surface is kept under. */
  readonly key: string;
  /** What it is to be printed at. */
  readonly dpi: Dpi;
}

/** A file that was written. */
export interface ShownTask extends Drawn {
  /** Tells it from the others. */
  readonly kind: 'shown';
  /** The file. */
  readonly path: string;
  /** What it measures on paper, mm, or null where it says so itself. */
  readonly size: Size<number> | null;
}

/** What there is to see. */
export interface View {
  /** A JPEG. */
  readonly bytes: Uint8Array;
  /** Columns. */
  readonly width: number;
  /** Rows. */
  readonly height: number;
  /** What was found on a photo, or null. */
  readonly found: ReportFound | null;
  /** On paper: one repeat, or the file; null where that cannot be told, or of a photo. */
  readonly size: Size<number> | null;
}
