import { outOfRange } from '../errors/out-of-range.js';
import { readLength, typedMm } from './read-length.js';
import { withPoint } from './with-point.js';
import { type PrintMm, printMm, type RealMm, realMm } from './units.js';

/** How wide and how high. */
export interface Size<Length> {
  /** From side to side. */
  readonly width: Length;
  /** From top to bottom. */
  readonly height: Length;
}

/**
 * Take a size on paper.
 *
 * @param text - As typed: `120x80mm`, `12cm x 80mm`, `4x3in`; where one side has a unit it goes for
 *   both, where none has it is millimetres.
 * @param name - What the size is for, as the user knows it: `--size`.
 * @returns Millimetres of paper, both above 0.
 * @throws RangeError when it is anything else.
 */
export function parsePrintSize(text: string, name = 'size'): Size<PrintMm> {
  const { width, height } = parseSize(text, name);
  return { width: printMm(width), height: printMm(height) };
}

/**
 * Take the size of a real thing.
 *
 * @param text - As typed: `9.9x4.2m`, `8ft6in x 4ft`; where one side has a unit it goes for both,
 *   where none has it is millimetres.
 * @param name - What the size is for, as the user knows it: `--real-size`.
 * @returns Millimetres of the real thing, both above 0.
 * @throws RangeError when it is anything else.
 */
export function parseRealSize(text: string, name = 'size'): Size<RealMm> {
  const { width, height } = parseSize(text, name);
  return { width: realMm(width), height: realMm(height) };
}

function parseSize(text: string, name: string): Size<number> {
  const [across, down, ...more] = text.split(/[x×]/i).map(readLength);
  if (!across || !down || more.length > 0) {
    throw outOfRange(withPoint('size', text) ?? 'a size such as 120x80mm', name, text);
  }
  const width = typedMm(across, down.unit ?? 'mm');
  const height = typedMm(down, across.unit ?? 'mm');
  if (!(width > 0 && height > 0)) {
    throw outOfRange('two lengths above 0, up to 1,000 km,', name, text);
  }
  return { width, height };
}
