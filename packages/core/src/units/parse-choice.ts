import { outOfRange } from '../errors/out-of-range.js';

/**
 * Take one of a few words.
 *
 * @param text - As typed.
 * @param name - What it is for, as the user knows it.
 * @param choices - What may be meant.
 * @returns The one that was meant.
 * @throws RangeError that lists the choices.
 */
export function parseChoice<const Choice extends string>(
  text: string,
  name: string,
  choices: readonly Choice[],
): Choice {
  const found = choices.find((choice) => choice === text);
  if (found === undefined) throw outOfRange(`one of ${choices.join(', ')}`, name, text);
  return found;
}
