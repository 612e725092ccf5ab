import { outOfRange } from '../errors/out-of-range.js';
import { blocks } from './blocks.js';
import { bricks } from './bricks.js';
import type { OwnReference } from './own-reference.js';
import { roofing } from './roofing.js';
import { searchCatalogue } from './search.js';
import { timber } from './timber.js';

/** How ids of one's own are formed: kebab-case, so that none is taken for a length. */
export const ownIdPattern = '^[a-z][a-z0-9]*(-[a-z0-9]+)*$';

/** The same in words. */
export const ownIdInWords = 'small letters, digits and single dashes, a letter first';

const longestId = 40;

/**
 * Take the id of a reference of one's own.
 *
 * @param text - As typed.
 * @param name - What it is for, as the user knows it: `--add`.
 * @returns The same.
 * @throws RangeError when it is no id, or one that the catalogue has.
 */
export function parseOwnId(text: string, name = 'id'): string {
  const id = text.trim();
  if (id.length > longestId || !new RegExp(ownIdPattern).test(id)) {
    throw outOfRange(`an id of ${ownIdInWords}, up to ${longestId},`, name, text);
  }
  // What a height typed as a length goes by.
  if (id === 'own' || isTaken(id))
    throw outOfRange("an id that is not the catalogue's", name, text);
  return id;
}

function isTaken(id: string): boolean {
  const courses = [...bricks, ...blocks, ...roofing, ...timber];
  return (
    courses.some((entry) => entry.alsoCalled.includes(id)) ||
    searchCatalogue().some((entry) => entry.id.toLowerCase() === id)
  );
}

/**
 * Check the sizes of a reference of one's own against one another.
 *
 * @param own - It.
 * @throws RangeError when two of them make no sense together.
 */
export function checkOwn(own: OwnReference): void {
  const { course, tolerance, length, lengthTolerance, width } = own;
  if (!(tolerance < course)) throw outOfRange('less than the course', 'tolerance', mm(tolerance));
  const alone = lengthTolerance === null ? 'width' : 'lengthTolerance';
  if (length === null) {
    if ((lengthTolerance ?? width) === null) return;
    throw outOfRange('a length beside it', alone, mm(lengthTolerance ?? width));
  }
  if (lengthTolerance !== null && !(lengthTolerance < length)) {
    throw outOfRange('less than the length', 'lengthTolerance', mm(lengthTolerance));
  }
}

function mm(length: number | null): string {
  return `${length ?? ''}mm`;
}
