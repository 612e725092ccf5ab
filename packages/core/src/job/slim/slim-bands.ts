import type { PixelSize } from '../../drawing/slim/plan-spans.js';
import { type DecodedWindow, decodeWindow } from '../../read/decode-window.js';
import type { Stretch, Window } from './slim-spots.js';

/** A picture's file, and what is to be known to decode part of it. */
export interface BandedFile {
  /** The file. */
  readonly bytes: Buffer;
  /** Its columns and rows. */
  readonly size: PixelSize;
  /** Whether it is grey, with or without alpha. */
  readonly grey: boolean;
}

// Each is decoded from the picture's top, which takes a little longer and much less memory.
const bandPixels = 4e6;
const mostBands = 8;

/**
 * In how many bands a picture is best looked at.
 *
 * @param size - Its columns and rows.
 * @param most - At most so many.
 * @returns 1 or more.
 */
export function bandsOf(size: PixelSize, most: number): number {
  return Math.min(mostBands, most, Math.ceil((size.width * size.height) / bandPixels));
}

/**
 * What of a row of things falls to a band.
 *
 * @param band - Which, from 0.
 * @param bands - How many there are.
 * @param count - Of things: rows, or blocks of spots.
 * @returns Those of it.
 */
export function bandOf(band: number, bands: number, count: number): Stretch {
  const from = Math.round((band * count) / bands);
  return { from, length: Math.round(((band + 1) * count) / bands) - from };
}

/**
 * Decode part of a picture.
 *
 * @param file - The picture.
 * @param window - Which part: whole pixels inside it.
 * @param bits - Bits a sample: 8, or 16 where it holds them.
 * @returns Its pixels.
 * @throws TextureError `damaged-picture`.
 */
export async function decodePart(
  file: Omit<BandedFile, 'size'>,
  window: Window,
  bits = 8,
): Promise<DecodedWindow> {
  const { bytes, grey } = file;
  const { x, y } = window;
  return decodeWindow('it', bytes, {
    window: { left: x.from, top: y.from, width: x.length, height: y.length },
    bits,
    grey,
  });
}
