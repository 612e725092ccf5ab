import type { RealMm } from '../units/units.js';
import { type CourseEntry, isLaidDry } from './course-entry.js';

/** What a reference of one's own may be. */
export type OwnKind = 'brick' | 'block' | 'roofing' | 'timber';

/** All of those. */
export const ownKinds: readonly OwnKind[] = ['brick', 'block', 'roofing', 'timber'];

/** Regular work that its user knows the size of, and the catalogue does not. */
export interface OwnReference {
  /** Unlike any other, kebab-case: `dye-house-brick`. */
  readonly id: string;
  /** As people say it; the id where they say no more. */
  readonly name: string;
  /** What it is. */
  readonly kind: OwnKind;
  /** From bed joint to bed joint, board to board or tile edge to tile edge. */
  readonly course: RealMm;
  /** How far the course may be off, either way; smaller than it. */
  readonly tolerance: RealMm;
  /** Of a brick's long face, without mortar; of a tile or board, what shows of it; or null. */
  readonly length: RealMm | null;
  /** How far that may be off, either way; null for what BS EN 771-1 allows. */
  readonly lengthTolerance: RealMm | null;
  /** Of a brick's short face, without mortar; or null. */
  readonly width: RealMm | null;
  /** Mortar at the head, or null where it is not known or there is none. */
  readonly joint: RealMm | null;
  /** What is published of it, or who measured it and how. */
  readonly source: string;
}

/**
 * Put a reference of one's own beside the catalogue's.
 *
 * @param own - It.
 * @returns The same as an entry: how far one unit runs along the course is known where its length is, and its mortar or
 *   that there is none.
 */
export function toCourseEntry(own: OwnReference): CourseEntry {
  const { id, name, kind, course, tolerance, length, width, joint, source } = own;
  const mortar = joint ?? (isLaidDry(kind) ? 0 : null);
  const withJoint = (side: number | null): number | null =>
    side === null || mortar === null ? null : side + mortar;
  return {
    ...{ id, name, kind, course, tolerance, joint, source },
    alsoCalled: [],
    toleranceSource: 'tolerance as given',
    unit: null,
    stretcher: withJoint(length),
    header: length === null ? null : withJoint(width),
  };
}
