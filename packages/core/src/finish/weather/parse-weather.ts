import { outOfRange } from '../../errors/out-of-range.js';
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
  return oneOf(weatherPresets, text, name);
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
  return oneOf(facings, text, name);
}

function oneOf<Word extends string>(words: readonly Word[], text: string, name: string): Word {
  const found = words.find((word) => word === text);
  if (found === undefined) throw outOfRange(`one of ${words.join(', ')}`, name, text);
  return found;
}
