import { readLength } from './read-length.js';

/**
 * Say how a length or size should have been written that was typed with decimal commas.
 *
 * @param what - What it is to be: `length`.
 * @param text - As typed: `8,5m`.
 * @returns What to expect instead, or null where a point for a comma does not mend it.
 */
export function withPoint(what: string, text: string): string | null {
  // Three digits after a comma may be thousands.
  const mended = text.trim().replace(/(\d),(?=\d)(?!\d{3}(?!\d))/g, '$1.');
  const sides = what === 'size' ? mended.split(/[x×]/i) : [mended];
  if (mended === text.trim() || !sides.every(readLength)) return null;
  return `a ${what} whose decimals take a point, such as ${mended},`;
}
