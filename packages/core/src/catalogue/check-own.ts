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
  const { tolerance, length, lengthTolerance, width, joint } = own;
  const isBelow = (size: number | null, bound: number | null): boolean =>
    size === null || bound === null || size < bound;
  // A header is known with its mortar alone; tiles and boards lie without.
  const hasMortar = own.kind === 'brick' || own.kind === 'block';
  const faults = [
    [isBelow(tolerance, own.course), 'less than the course', 'tolerance', tolerance],
    [isBelow(joint, own.course), 'less than the course', 'joint', joint],
    [
      isBesideLength(lengthTolerance, length),
      'a length beside it',
      'lengthTolerance',
      lengthTolerance,
    ],
    [isBesideLength(width, length), 'a length beside it', 'width', width],
    [isBelow(lengthTolerance, length), 'less than the length', 'lengthTolerance', lengthTolerance],
    [width === null || joint !== null || !hasMortar, 'a joint beside it', 'width', width],
  ] as const;
  for (const [isGood, expected, name, got] of faults) {
    if (!isGood) throw outOfRange(expected, name, mm(got));
  }
}

function isBesideLength(size: number | null, length: number | null): boolean {
  return size === null || length !== null;
}

function mm(length: number | null): string {
  return `${length ?? ''}mm`;
}
