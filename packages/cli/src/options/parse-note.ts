import type { Reading } from './option.js';

/**
 * Take a note to be kept beside a photo.
 *
 * @param text - What was typed.
 * @param reading - Which option it is for.
 * @returns The same without blanks around it.
 * @throws RangeError when nothing is left, or more than a note.
 */
export function parseNote(text: string, reading: Reading): string {
  const note = text.trim();
  if (note === '' || note.length > 1000)
    throw reading.core.outOfRange('1 to 1000 characters', reading.name, text);
  return note;
}
