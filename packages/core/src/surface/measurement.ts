import type { Homography } from '../numeric/homography.js';
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
  /** Whether it is laid without mortar, as roofs and boards are; left out where it is not, or nobody knows. */
  readonly laidDry?: boolean;
}

/** A number along each axis of the upright photo. */
export interface PerAxis<Value> {
  /** Along the rows. */
  readonly x: Value;
  /** Down the columns. */
  readonly y: Value;
}

/**
 * From photo to level picture. A point of the photo is first freed of the lens: moved from the
 * photo's middle by `1 + lens * (r / R)^2` times its distance `r`, where `R` is half the diagonal.
 * Then the homography takes it to where it lies once courses are level and square. The photo's
 * middle keeps its place and, over a small spot there, its area.
 */
export interface Rectification {
  /** Nine numbers, row by row, of the homography. */
  readonly matrix: Homography;
  /** Barrel distortion above 0, pincushion below; 0 where there is none or it was not looked for. */
  readonly lens: number;
}

/** Which way courses are counted: `y` where they lie level, `x` where they stand upright. */
export type CourseAxis = 'x' | 'y';

/** Where the joints of regular work lie, in pixels of the level picture. */
export interface Lattice {
  /** Which way its courses are counted. */
  readonly axis: CourseAxis;
  /** Bed joint to bed joint, along `axis`. */
  readonly course: Px;
  /** Where along `axis` one bed joint lies, 0 up to one course. */
  readonly courseOffset: number;
  /** Across `axis`: one brick or tile with its joint, or null where none was found. */
  readonly brick: Px | null;
  /**
   * The smallest shift that lays the joints on themselves: along x, and down y (a whole number of
   * courses). Null on an axis where the pattern never repeats or cannot be told.
   */
  readonly repeat: PerAxis<Px | null>;
  /** The bond's catalogue id, or null where it could not be told. */
  readonly bond: string | null;
}

/** What may put a measurement out. */
export type UncertaintySource =
  /** How far joints lie from where equal courses would have them. */
  | 'fit'
  /** Points marked by hand. */
  | 'marks'
  /** The reference's own size. */
  | 'reference'
  /** What is left of slant and perspective, or was never looked for. */
  | 'perspective'
  /** What the lens bends. */
  | 'lens'
  /** Focal length and distance, as noted and told. */
  | 'distance';

/** One line of an uncertainty budget. */
export interface UncertaintyPart {
  /** What it comes from. */
  readonly source: UncertaintySource;
  /** Its standard uncertainty (k = 1), in per cent of `mmPerPx`. */
  readonly percent: number;
}

/** Real millimetres per pixel, how found, and how sure. */
export interface Measurement {
  /** How it was come by. */
  readonly method: MeasurementMethod;
  /** What was held against the picture. */
  readonly reference: Reference;
  /** Real millimetres per pixel of the upright (where rectified: the level) photo. */
  readonly mmPerPx: PerAxis<number>;
  /** Expanded uncertainty (k = 2) of `mmPerPx`, in per cent; where x and y differ in it, the larger. */
  readonly uncertaintyPercent: number;
  /** What that is made of: independent parts, each with its own standard uncertainty. */
  readonly budget: readonly UncertaintyPart[];
  /** 0 to 1: of answers given with 0.9, nine in ten are right. */
  readonly confidence: number;
  /** How to make the photo level, or null where it is taken as level. */
  readonly rectification: Rectification | null;
  /** Where the joints lie, or null where the work has none or nobody looked. */
  readonly lattice: Lattice | null;
}
