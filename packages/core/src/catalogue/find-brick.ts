import { outOfRange } from '../errors/out-of-range.js';
import type { Reference } from '../surface/measurement.js';
import { realMm } from '../units/units.js';
import { blocks } from './blocks.js';
import { bricks } from './bricks.js';
import { nearNames } from './near-names.js';

const withUnits = [...bricks, ...blocks].flatMap((entry) =>
  entry.unit === null ? [] : [{ ...entry, length: entry.unit[0] }],
);

/**
 * Find one brick to hold against a picture: the length of its long face, without mortar.
 *
 * @param text - The id of a brick or block: `uk-metric`.
 * @param name - What the brick is for, as the user knows it.
 * @returns Its length as a reference.
 * @throws RangeError when there is none of that name whose length is known; names near it are in the
 *   message.
 */
export function findBrick(text: string, name = 'brick'): Reference {
  const id = text
    .trim()
    .toLowerCase()
    .replace(/[\s_]+/g, '-');
  const found = withUnits.find((entry) => entry.id === id || entry.alsoCalled.includes(id));
  if (found === undefined) {
    const near = nearNames(
      id,
      withUnits.map((entry) => entry.id),
    );
    const meant = near.length > 0 ? `${near.join(', ')}?` : 'such as uk-metric';
    throw outOfRange(`the id of a brick whose length is known (${meant})`, name, text);
  }
  const { length } = found;
  return {
    id: found.id,
    name: `${found.name}, its length`,
    size: realMm(length),
    // Anywhere in the band alike: JCGM 100:2008 (GUM), 4.3.7.
    uncertainty: lengthTolerance(length) / Math.sqrt(3) / length,
    source: `${found.source}; tolerance T1 of BS EN 771-1, from memory`,
  };
}

// T1: 0.40 times the square root of the size, and 3 mm at least.
function lengthTolerance(mm: number): number {
  return Math.max(3, 0.4 * Math.sqrt(mm));
}
