import type { CourseReference } from '../../catalogue/course-reference.js';
import type { Warning } from '../../errors/warning.js';
import type { Lattice } from '../../surface/measurement.js';
import { judgeFormats } from './judge-formats.js';
import { toShape } from './to-shape.js';

/** A format that was named, and the courses that it was held against. */
export interface NamedFormat {
  /** As named. */
  readonly reference: CourseReference;
  /** Standard uncertainty (k = 1) of the course in the picture, as a fraction. */
  readonly uncertainty: number;
  /** References beside the catalogue's that it could be as well. */
  readonly own: readonly CourseReference[];
}

/** The named format is doubted where another is this many times as likely. */
const doubt = 50;
/** So many others are named. */
const mostNamed = 4;

/**
 * Hold a named format against the shape of the bricks: their length over the course's height
 * belongs to a format.
 *
 * @param lattice - Of the level picture.
 * @param named - The format, and how sure the course is.
 * @returns A warning that names likelier formats, or null where the named one will do.
 */
export function warnOfFormat(lattice: Lattice, named: NamedFormat): Warning | null {
  const { reference, uncertainty, own } = named;
  const shape = toShape(lattice, uncertainty);
  if (shape === null || reference.brick === null) return null;
  // The one that was named may be beside the catalogue too.
  const { formats, other, bond } = judgeFormats(shape, { own: [...own, reference] });
  const chance = formats.find(({ reference: { id } }) => id === reference.id)?.probability ?? 0;
  const best = formats[0]?.probability ?? 0;
  if (doubt * chance >= Math.max(best, other)) return null;
  const { stretcher, header } = reference.brick;
  const expected = (bond === 'header' ? (header ?? stretcher) : stretcher) / reference.size;
  const likely = formats
    .filter(({ probability }) => probability > Math.max(other, best / 4))
    .slice(0, mostNamed)
    .map(({ reference: { id } }) => id);
  return {
    code: 'likely-other-format',
    message: `a brick is ${shape.courses.toFixed(2)} courses long, where ${reference.name} would be ${expected.toFixed(2)}: ${
      likely.length > 0 ? `likelier ${likely.join(', ')}` : 'no format of the catalogue is'
    }`,
  };
}
