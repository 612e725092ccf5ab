import type { OwnReference } from '../../catalogue/own-reference.js';
import type { Outcome } from '../../errors/outcome.js';
import type { Warning } from '../../errors/warning.js';
import type { CourseAxis } from '../../surface/measurement.js';
import type { SidecarPhoto } from '../../surface/sidecar.js';
import type { Span } from '../../surface/span.js';
import type { Point } from '../../units/parse-point.js';
import type { Size } from '../../units/parse-size.js';
import type { CourseFit } from '../find-courses.js';
import type { FocalLength } from '../find-focal-length.js';
import type { UnitCourses } from './weigh-format.js';

/** What a page that is pointed at may be told: lines of known length, counted courses, corners, or courses found. */
export type PointedWay = 'line' | 'count' | 'corners' | 'found';

/** What a page begins with: what was given, as it would be typed, and places to begin from for the rest. */
export interface PointedStart {
  /** Which way is shown first. */
  readonly way: PointedWay;
  /** Lines, one or more. */
  readonly lines: readonly {
    /** Its ends. */
    readonly span: Span;
    /** Its real length. */
    readonly length: string;
  }[];
  /** The four corners of a rectangle. */
  readonly corners: readonly Point[];
  /** The rectangle's real size. */
  readonly size: string;
  /** What its courses are. */
  readonly course: string;
  /** How many were counted. */
  readonly courses: string;
  /** Whether they were counted over all of the photo, and not on the first line. */
  readonly whole: boolean;
  /** A brick that lines go along. */
  readonly brick: string;
  /** A section that lines go across. */
  readonly section: string;
}

/** All that a page has to know of a photo to measure it by places that are marked on it. */
export interface PointedPhoto {
  /** References beside the catalogue's. */
  readonly own: readonly OwnReference[];
  /** As a surface file names it. */
  readonly photo: SidecarPhoto;
  /** The picture that the page shows, perhaps made smaller. */
  readonly shown: Size<number>;
  /** Focal length, where it is known, or null. */
  readonly focal: FocalLength | null;
  /** The same as the caller gave it, as typed, or null. */
  readonly focalGiven: string | null;
  /** Degrees that it may be off square, either way. */
  readonly slant: number;
  /** Which way courses are counted. */
  readonly axis: CourseAxis;
  /** The courses that the photo shows that way. */
  readonly look: Outcome<CourseFit, 'no-courses'>;
  /** The photo measured by courses of 1 mm and what is to be known of that, or null where none were found. */
  readonly unit: (UnitCourses & { readonly warnings: readonly Warning[] }) | null;
  /**
   * Whether the photo seems to be a tile as it is. The library then looks closer, at pixels that a page
   * does not hold.
   */
  readonly tile: boolean;
  /** Whether it shows no courses, lying or standing, as it is. */
  readonly plain: boolean;
  /** What those courses could be, likeliest first. */
  readonly likely: readonly {
    /** A catalogue id. */
    readonly id: string;
    /** 0 to 1. */
    readonly probability: number;
  }[];
  /** What to begin with. */
  readonly start: PointedStart;
  /** The terms under which the photo may be used, or null. */
  readonly licence: string | null;
  /** Whose photo it is, or null. */
  readonly credit: string | null;
}
