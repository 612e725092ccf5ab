import { outOfRange } from '../errors/out-of-range.js';
import type { Reference } from '../surface/measurement.js';
import { realMm } from '../units/units.js';
import { blocks } from './blocks.js';
import { bricks } from './bricks.js';
import type { CourseEntry } from './course-entry.js';
import { nearNames } from './near-names.js';
import type { OwnReference } from './own-reference.js';

interface LongFace extends Pick<CourseEntry, 'id' | 'alsoCalled' | 'name' | 'source'> {
  readonly length: number;
  readonly tolerance: number;
}

const allowed = 'tolerance T1 of BS EN 771-1, from memory';

const inCatalogue: readonly LongFace[] = [...bricks, ...blocks].flatMap(({ unit, ...entry }) => {
  if (unit === null) return [];
  const [length] = unit;
  return [{ ...entry, length, tolerance: t1(length), source: `${entry.source}; ${allowed}` }];
});

function toLongFace(own: OwnReference): LongFace[] {
  const { id, name, length, lengthTolerance, source } = own;
  if (length === null) return [];
  const why = lengthTolerance === null ? allowed : 'tolerance as given';
  const tolerance = lengthTolerance ?? t1(length);
  return [{ id, alsoCalled: [], name, length, tolerance, source: `${source}; ${why}` }];
}

// T1: 0.40 times the square root of the size, and 3 mm at least.
function t1(mm: number): number {
  return Math.max(3, 0.4 * Math.sqrt(mm));
}

/**
 * Find one brick to hold against a picture: the length of its long face, without mortar.
 *
 * @param text - The id of a brick or block: `uk-metric`.
 * @param name - What the brick is for, as the user knows it.
 * @param own - References beside the catalogue's, by ids that it has not.
 * @returns Its length as a reference.
 * @throws RangeError when there is none of that name whose length is known; names near it are in the
 *   message.
 */
export function findBrick(
  text: string,
  name = 'brick',
  own: readonly OwnReference[] = [],
): Reference {
  const id = text
    .trim()
    .toLowerCase()
    .replace(/[\s_]+/g, '-');
  const faces = [...inCatalogue, ...own.flatMap(toLongFace)];
  const found = faces.find((face) => face.id === id || face.alsoCalled.includes(id));
  if (found === undefined) {
    const near = nearNames(
      id,
      faces.map((face) => face.id),
    );
    const meant = near.length > 0 ? `${near.join(', ')}?` : 'such as uk-metric';
    throw outOfRange(`the id of a brick whose length is known (${meant})`, name, text);
  }
  const { length, tolerance, source } = found;
  return {
    id: found.id,
    name: `${found.name}, its length`,
    size: realMm(length),
    // Anywhere in the band alike: JCGM 100:2008 (GUM), 4.3.7.
    uncertainty: tolerance / Math.sqrt(3) / length,
    source,
  };
}
