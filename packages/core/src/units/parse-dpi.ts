import { outOfRange } from '../errors/out-of-range.js';
import { type Dpi, dpi } from './units.js';

/**
 * Take a print resolution.
 *
 * @param text - As typed: `600`, `600dpi`.
 * @param name - What it is for, as the user knows it.
 * @returns Dots per inch, from 10 to 4800: below, no print; above, no printer.
 * @throws RangeError when it is anything else.
 */
export function parseDpi(text: string, name = '--dpi'): Dpi {
  const [, digits] = /^(\d{1,6}(?:\.\d{1,9})?)(?: *dpi)?$/i.exec(text.trim()) ?? [];
  const value = Number(digits ?? NaN);
  if (!(value >= 10 && value <= 4800)) {
    throw outOfRange('dots per inch from 10 to 4800, such as 600,', name, text);
  }
  return dpi(value);
}
