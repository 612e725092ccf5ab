/** A brick's long face or its short one. */
export type Face = 'stretcher' | 'header';

/** One course of a bond. */
export interface BondCourse {
  /** The faces from left to right, one time; the course repeats them. */
  readonly run: readonly Face[];
  /** How far the run lies to the right, as a fraction of its own length, 0 up to 1. */
  readonly shift: number;
}

/** The pattern that stretchers and headers make. */
export interface Bond {
  /** Unlike any other, kebab-case: `english-cross`. */
  readonly id: string;
  /** As people say it: `English cross bond`. */
  readonly name: string;
  /** From the top down, as few as repeat. */
  readonly courses: readonly [BondCourse, ...BondCourse[]];
  /** Where the pattern is described. */
  readonly source: string;
}
