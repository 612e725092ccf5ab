import type { Reading } from './option.js';

/**
 * Take the name of a folder.
 *
 * @param text - What was typed.
 * @param reading - Which option it is for.
 * @returns The same.
 * @throws RangeError when it cannot name a folder.
 */
export function parseFolder(text: string, reading: Reading): string {
  if (text.trim() === '' || text.includes('\0'))
    throw reading.core.outOfRange('a folder', reading.name, text);
  return text;
}
