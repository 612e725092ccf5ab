import { outOfRange } from '../errors/out-of-range.js';

/**
 * Take a note: whose something is, where it comes from.
 *
 * @param text - As typed.
 * @param name - What it is for, as the user knows it: `--credit`.
 * @returns The same without blanks around it.
 * @throws RangeError when nothing is left, or more than a note.
 */
export function parseNote(text: string, name: string): string {
  const note = text.trim();
  if (note === '' || note.length > 1000) throw outOfRange('1 to 1000 characters', name, text);
  return note;
}
