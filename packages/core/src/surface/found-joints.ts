import type { CourseAxis, Rectification } from './measurement.js';

/** A joint between two courses, as found. */
export interface FoundBed {
  /** Where along the course axis, in pixels of the level picture. */
  readonly at: number;
  /** 0 to 1: the share of its length along which it shows. */
  readonly shows: number;
}

/** A joint within a course, as found. */
export interface FoundPerpend {
  /** Where across the course axis, in pixels of the level picture. */
  readonly at: number;
  /** Where along the course axis it begins. */
  readonly from: number;
  /** Where it ends. */
  readonly to: number;
}

/** A part of the photo that the joints leave out: a window, a pipe, other work. */
export interface LeftOut {
  /** Left edge, in pixels of the level picture. */
  readonly x: number;
  /** Top edge. */
  readonly y: number;
  /** Columns. */
  readonly width: number;
  /** Rows. */
  readonly height: number;
}

/** The joints that a measurement rests on, for a picture of them. */
export interface FoundJoints {
  /** Which way courses are counted. */
  readonly axis: CourseAxis;
  /** From photo to level picture, or null where the photo is taken as level. */
  readonly rectification: Rectification | null;
  /** Joints between courses, in order. */
  readonly beds: readonly FoundBed[];
  /** Joints within courses, where they were found. */
  readonly perpends: readonly FoundPerpend[];
  /** What shows no such joints. */
  readonly leftOut: readonly LeftOut[];
}
