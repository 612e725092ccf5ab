import type { Warning } from '../../errors/warning.js';
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
  if (!raster.planes.every((plane) => isEven(plane))) return [];
  const message = 'the picture is one colour all over: it repeats, and there is nothing to see';
  return [{ code: 'one-colour', message }];
}

function isEven(plane: Float32Array): boolean {
  const first = plane[0] ?? 0;
  return plane.every((value) => Math.abs(value - first) < leastLight);
}
