import { parseChoice } from '../../units/parse-choice.js';
import { parsePlaces } from '../../units/parse-place.js';
import type { Ledge, WallPoint } from './site.js';
import { type Facing, facings, type WeatherPreset, weatherPresets } from './strengths.js';

/**
 * Take how a wall of a certain age looks.
 *
 * @param text - Such as `settled`.
 * @param name - What it is for, as the user knows it.
 * @returns One of those there are.
 * @throws RangeError that lists them, when it is none.
 */
export function parsePreset(text: string, name = 'preset'): WeatherPreset {
  return parseChoice(text, name, weatherPresets);
}

/**
 * Take a side that a wall looks to.
 *
 * @param text - Such as `north`.
 * @param name - What it is for, as the user knows it.
 * @returns The side.
 * @throws RangeError that lists them, when it is none.
 */
export function parseFacing(text: string, name = 'facing'): Facing {
  return parseChoice(text, name, facings);
}

const ledge = { least: 2, example: 'two or more points such as "10,24 34,24"' };

/**
 * Take a sill, coping or string course.
 *
 * @param text - Its points from end to end, blanks between them: `10,24 34,24`.
 * @param name - What it is for, as the user knows it.
 * @returns Its lines, in mm of whatever the points are in.
 * @throws RangeError when it is no two places.
 */
export function parseLedge(text: string, name = 'ledge'): readonly Ledge[] {
  const points = parsePlaces(text, name, ledge);
  return points.slice(1).map((to, i) => ({ from: points[i]!, to }));
}

const fixing = { least: 1, example: 'points such as "12,30 40,30"' };

/**
 * Take where iron is in a wall.
 *
 * @param text - Points, blanks between them: `12,30 40,30`.
 * @param name - What they are for, as the user knows it.
 * @returns The points, in mm of whatever they are in.
 * @throws RangeError when one is no place.
 */
export function parseFixing(text: string, name = 'fixing'): readonly WallPoint[] {
  return parsePlaces(text, name, fixing);
}
