import { outOfRange } from '../errors/out-of-range.js';
import { parseRealLength } from './parse-length.js';
import { type LengthUnit, readLength, typedMm } from './read-length.js';
import { type RealMm, realMm } from './units.js';

/** A length of the real thing as somebody states it. */
export interface StatedLength {
  /** As stated. */
  readonly length: RealMm;
  /** How far it may be off, either way; left out where nobody says. */
  readonly tolerance?: RealMm;
}

// What stands between a length and its tolerance.
const between = /±|\+\s*(?:\/\s*)?-/;

/**
 * Take a length of the real thing with the tolerance it may carry.
 *
 * @param text - As typed: `1981mm`, `1981±3mm`, `6ft6in +- 1/8in`, `3.6m +/- 0.5%`; where only one
 *   of the two has a unit, it goes for both.
 * @param name - What the length is for, as the user knows it: `--length`.
 * @returns Length and tolerance, both above 0, the tolerance the smaller.
 * @throws RangeError when it is anything else.
 */
export function parseStatedLength(text: string, name = 'length'): StatedLength {
  const [stated = '', allowed, ...more] = text.split(between);
  if (allowed === undefined) return { length: parseRealLength(text, name) };
  const whole = readLength(stated);
  const read = readTolerance(allowed.trim());
  if (whole === null || read === null || more.length > 0) {
    throw outOfRange('a length and how far it may be off, such as 1981mm+-3mm,', name, text);
  }
  const length = typedMm(whole, read.unit ?? 'mm');
  const tolerance = read.of(length, whole.unit ?? 'mm');
  if (!(tolerance > 0 && tolerance < length)) {
    throw outOfRange('a tolerance above 0 and smaller than its length', name, text);
  }
  return { length: realMm(length), tolerance: realMm(tolerance) };
}

interface ReadTolerance {
  readonly unit: LengthUnit | null;
  // In mm, of a length in mm; a bare number is in the given unit.
  readonly of: (length: number, bare: LengthUnit) => number;
}

function readTolerance(text: string): ReadTolerance | null {
  const share = /^(\d{1,2}(?:\.\d{1,9})?) ?%$/.exec(text)?.[1];
  if (share !== undefined) return { unit: null, of: (length) => (length * Number(share)) / 100 };
  const part = readLength(text);
  return part && { unit: part.unit, of: (_, bare) => typedMm(part, bare) };
}
