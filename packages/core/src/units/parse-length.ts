import { outOfRange } from '../errors/out-of-range.js';
import { readLength, typedMm } from './read-length.js';
import { withPoint } from './with-point.js';
import { type PrintMm, printMm, type RealMm, realMm } from './units.js';

/**
 * Take a length of the real thing.
 *
 * @param text - As typed: `9.9m`, `7 5/8in`, `8ft6in`, `8'6"`; a bare number is millimetres.
 * @param name - What the length is for, as the user knows it: `--length`.
 * @returns Millimetres of the real thing, above 0 and up to 1,000 km.
 * @throws RangeError when it is anything else.
 */
export function parseRealLength(text: string, name = 'length'): RealMm {
  return realMm(parseMm(text, name));
}

/**
 * Take a length of paper.
 *
 * @param text - As typed: `120mm`, `12cm`, `4.7in`; a bare number is millimetres.
 * @param name - What the length is for, as the user knows it: `--bleed`.
 * @returns Millimetres of paper, above 0 and up to 1,000 km; what a printer can take is for the
 *   caller to say.
 * @throws RangeError when it is anything else.
 */
export function parsePrintLength(text: string, name = 'length'): PrintMm {
  return printMm(parseMm(text, name));
}

function parseMm(text: string, name: string): number {
  const length = readLength(text);
  if (!length)
    throw outOfRange(
      withPoint('length', text) ?? 'a length such as 120mm, 4.7in or 8ft6in',
      name,
      text,
    );
  const mm = typedMm(length);
  if (!(mm > 0)) throw outOfRange('a length above 0, up to 1,000 km,', name, text);
  return mm;
}
