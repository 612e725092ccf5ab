/** Regular work: what repeats down it, and where known along it. All lengths in mm. */
export interface CourseEntry {
  /** Unlike any other, kebab-case: `uk-metric`. */
  readonly id: string;
  /** Other ids it goes by. */
  readonly alsoCalled: readonly string[];
  /** As people say it: `UK metric brick`. */
  readonly name: string;
  /** What it is. */
  readonly kind: 'brick' | 'block' | 'roofing' | 'timber';
  /** From bed joint to bed joint, board to board or tile edge to tile edge, above 0. */
  readonly course: number;
  /** Half the band the course may lie in when well laid, above 0. */
  readonly tolerance: number;
  /** Where that band comes from. */
  readonly toleranceSource: string;
  /** The unit's own length, width and height, or null where sources differ. */
  readonly unit: readonly [length: number, width: number, height: number] | null;
  /** Mortar at the head, 0 for dry work, or null where not stated. */
  readonly joint: number | null;
  /** One unit with its joint along the course, or null where sources differ. */
  readonly stretcher: number | null;
  /** One header with its joint, or null where there are none. */
  readonly header: number | null;
  /** Where the sizes come from. */
  readonly source: string;
}

/**
 * Tell whether work is laid without mortar.
 *
 * @param kind - What it is.
 * @returns True of roofs and boards.
 */
export function isLaidDry(kind: CourseEntry['kind']): boolean {
  return kind === 'roofing' || kind === 'timber';
}
