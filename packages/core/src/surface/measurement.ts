import type { Px, RealMm } from '../units/units.js';

/** How a measurement was come by, best first. */
export type MeasurementMethod = 'span' | 'count' | 'courses' | 'rectangle' | 'section' | 'distance';

/** A thing of known real size in the picture. */
export interface Reference {
  /** A catalogue id (`uk-metric`), or `own` for a size the user gave. */
  readonly id: string;
  /** As people say it: `UK metric brick`. */
  readonly name: string;
  /** Its size along the measured direction: a course, a span. */
  readonly size: RealMm;
  /** Standard uncertainty of that size (k = 1), as a fraction: 0.005 is half a per cent. */
  readonly uncertainty: number;
  /** Where the size comes from. */
  readonly source: string;
}

/** A number along each axis of the upright photo. */
export interface PerAxis<Value> {
  /** Along the rows. */
  readonly x: Value;
  /** Down the columns. */
  readonly y: Value;
}

/**
 * From photo to level picture: nine numbers, row by row, of the homography that takes a point
 * `[x, y, 1]` of the upright photo to where it lies once courses are level and square.
 */
export interface Rectification {
  /** Row by row. */
  readonly matrix: readonly [
    number,
    number,
    number,
    number,
    number,
    number,
    number,
    number,
    number,
  ];
}

/** Where the joints of regular work lie, in pixels of the level picture. */
export interface Lattice {
  /** Bed joint to bed joint. */
  readonly course: Px;
  /** y of one bed joint, 0 up to one course. */
  readonly courseOffset: number;
  /** Along the course: one brick or tile with its joint, or null where none was found. */
  readonly brick: Px | null;
  /**
   * The smallest shift that lays the joints on themselves: along x, and down y (a whole number of
   * courses). Null on an axis where the pattern never repeats or cannot be told.
   */
  readonly repeat: PerAxis<Px | null>;
  /** The bond's catalogue id, or null where it could not be told. */
  readonly bond: string | null;
}

/** Real millimetres per pixel, how found, and how sure. */
export interface Measurement {
  /** How it was come by. */
  readonly method: MeasurementMethod;
  /** What was held against the picture. */
  readonly reference: Reference;
  /** Real millimetres per pixel of the upright (where rectified: the level) photo. */
  readonly mmPerPx: PerAxis<number>;
  /** Expanded uncertainty (k = 2) of `mmPerPx`, in per cent. */
  readonly uncertaintyPercent: number;
  /** 0 to 1: of answers given with 0.9, nine in ten are right. */
  readonly confidence: number;
  /** How to make the photo level, or null where it is taken as level. */
  readonly rectification: Rectification | null;
  /** Where the joints lie, or null where the work has none or nobody looked. */
  readonly lattice: Lattice | null;
}
