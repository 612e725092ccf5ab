import type { Warning } from '../../errors/warning.js';
import { toLines } from '../../raster/line-source.js';
import type { Raster } from '../../raster/raster.js';

// Less than a third of the least step of eight bits, 1 / 255 / 12.92 (IEC 61966-2-1): rounding, no picture.
const leastLight = 1e-4;

/**
 * Warn of a picture that is one colour all over.
 *
 * @param raster - Its pixels.
 * @returns A warning, or none.
 */
export function warnOfOneColour(raster: Raster): readonly Warning[] {
  const { height, line } = toLines(raster);
  for (const channel of [0, 1, 2] as const) {
    const [first = 0] = line(channel, 0);
    for (let y = 0; y < height; y++) if (!isEven(line(channel, y), first)) return [];
  }
  const message = 'the picture is one colour all over: it repeats, and there is nothing to see';
  return [{ code: 'one-colour', message }];
}

function isEven(line: Float32Array, first: number): boolean {
  return line.every((value) => Math.abs(value - first) < leastLight);
}
