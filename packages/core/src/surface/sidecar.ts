import type { Measurement } from './measurement.js';

/** What `wall.surface.json` beside `wall.jpg` holds: a measurement, and the photo it is of. */
export interface Sidecar {
  /** The photo that was measured. */
  readonly photo: SidecarPhoto;
  /** How big it is. */
  readonly measurement: Measurement;
  /**
   * Whether all of the photo is a tile as it is: level, no hard shadow over it, its ends meeting both ways at
   * whole bricks, nothing of it a copy. It then need not be looked at again. False unless told.
   */
  readonly finished?: boolean;
  /**
   * Whether courses were looked for in all of the photo, both ways, and it shows none: rust, gravel, render. They
   * then need not be looked for again. False unless told, and of every photo that is not level.
   */
  readonly plain?: boolean;
  /** The terms under which the photo may be used, or null. */
  readonly licence: string | null;
  /** Whose photo it is, or null. */
  readonly credit: string | null;
}

/** A photo, known by its bytes. */
export interface SidecarPhoto {
  /** Its name without folder; never opened. */
  readonly file: string;
  /** Of its bytes, in lower-case hexadecimal. */
  readonly sha256: string;
  /** Columns, upright. */
  readonly width: number;
  /** Rows, upright. */
  readonly height: number;
}

/** What the file's `schema` says before the slash, and the version that is written and read. */
export const sidecarSchema = { name: 'gaugerod.surface', version: 1 } as const;
