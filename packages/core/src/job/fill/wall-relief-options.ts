import type { LightSide } from '../../finish/relief/light-side.js';
import type { RealMm } from '../../units/units.js';

/** A course that stands out from a wall. */
export interface StringCourse {
  /** How far below the wall's datum its top lies, mm of paper, of any sign. */
  readonly y: number;
  /** From its top to its foot, mm of paper. */
  readonly height: number;
}

/** What of a wall is lit. */
export interface WallRelief {
  /** Courses that stand out, from end to end of the wall; none unless told. */
  readonly stringCourses?: readonly StringCourse[];
  /** How far they do; 50 mm unless told: common practice, no source. */
  readonly rise?: RealMm;
  /** Whether the edges of its openings are lit, as their normals ask; false unless told, and only with an outline. */
  readonly isOpeningsLit?: boolean;
  /** Where the light comes from; `above` unless told. */
  readonly light?: LightSide;
  /** How strong relief is, 0 to 1; 0.7 unless told. */
  readonly strength?: number;
}

/** What of a wall was lit. */
export interface WallReliefReport {
  /** Mm of paper from the wall's datum. */
  readonly stringCourses: readonly StringCourse[];
  /** Whether the edges of its openings were. */
  readonly isOpeningsLit: boolean;
  /** Where the light comes from. */
  readonly light: LightSide;
  /** How strong relief is. */
  readonly strength: number;
}
