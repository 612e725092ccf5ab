import os from 'node:os';
import { TextureError } from '../errors/texture-error.js';
import { inCount } from '../limits/over-limit.js';
import { inDigits } from '../units/in-digits.js';
import type { Size } from '../units/parse-size.js';
import { heldLimits } from './held-limits.js';

// Before there is a picture; program, decoder and file.
const usual = 250e6;

/**
 * Refuse a picture, by what its header says, of which all is to be held at once where this machine has not the memory
 * for it. Whoever says how many pixels may be read is taken at their word.
 *
 * @param path - Its name, escaped, for messages alone.
 * @param header - What it says of its size.
 * @param perPixel - Bytes of memory that one of them takes, seen at most.
 * @throws TextureError `too-large`.
 */
export function refuseUnheld(path: string, header: Size<number>, perPixel: number): void {
  const { width, height } = header;
  const pixels = width * height;
  const [needed, here] = [usual + perPixel * pixels, memoryHere()];
  if (needed <= here || heldLimits().mostPixels !== undefined) return;
  const told = `${path} is ${width} x ${height} pixels: to work on all of it at once takes ${inDigits(needed / 1e9)} GB of memory, and there are ${inDigits(here / 1e9)}`;
  const fit = Math.floor(Math.max(1, here - usual) / perPixel);
  throw new TextureError('too-large', `${told}: --most-pixels ${inCount(pixels)} tries it`, {
    hint: `make it smaller first: ${fit < 1e6 ? fit : `${inDigits(fit / 1e6, 2)} million`} pixels fit`,
    limit: 'pixels',
  });
}

// Of all programs together; in a container, what it may have.
function memoryHere(): number {
  const held = process.constrainedMemory();
  return held > 0 ? Math.min(os.totalmem(), held) : os.totalmem();
}
