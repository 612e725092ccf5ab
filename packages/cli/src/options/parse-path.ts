import type { Reading } from './option.js';

/**
 * Take the name of a file.
 *
 * @param text - What was typed.
 * @param reading - Which option it is for.
 * @returns The same.
 * @throws RangeError when it cannot name a file.
 */
export function parsePath(text: string, reading: Reading): string {
  // Elsewhere a dash means standard output, which takes the result in words.
  if (text === '-')
    throw reading.core.outOfRange('a file, not standard output,', reading.name, text);
  if (text.trim() === '' || text.includes('\0'))
    throw reading.core.outOfRange('a file', reading.name, text);
  return text;
}
