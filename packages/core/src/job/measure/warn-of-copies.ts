import type { Warning } from '../../errors/warning.js';
import type { AxisCopies } from '../../seam/copies/find-copies.js';
import type { PerAxis } from '../../surface/measurement.js';
import type { Size } from '../../units/parse-size.js';

/**
 * Say that a picture was tiled, or laid in a mirror, before.
 *
 * @param copies - As found in it.
 * @param size - Of the picture, in pixels.
 * @returns One warning, or none where nothing is a copy.
 */
export function warnOfCopies(copies: PerAxis<AxisCopies>, size: Size<number>): readonly Warning[] {
  const { x, y } = copies;
  const { width, height } = size;
  const repeats = [inWords(x.period, 'across', width), inWords(y.period, 'down', height)].filter(
    (one) => one !== null,
  );
  const mirrors = [place(x.mirror, 'x'), place(y.mirror, 'y')].filter((one) => one !== null);
  const said = [
    ...(repeats.length > 0 ? [`already repeats ${repeats.join(' and ')}`] : []),
    ...(mirrors.length > 0 ? [`is its own mirror image about ${mirrors.join(' and ')}`] : []),
  ];
  if (said.length === 0) return [];
  const message = `this picture ${said.join(', and ')}: copies make no measurement surer`;
  return [{ code: 'already-tiled', message }];
}

function inWords(period: number | null, way: string, length: number): string | null {
  if (period === null) return null;
  return `every ${inPixels(period)} px ${way} (it holds ${inPixels(length / period)} copies)`;
}

function place(mirror: number | null, axis: string): string | null {
  return mirror === null ? null : `${axis} = ${inPixels(mirror)}`;
}

// Tenths, where a picture was brought to another size since.
function inPixels(value: number): string {
  const tenths = Math.round(10 * value) / 10;
  return String(Math.abs(value - Math.round(value)) < 0.1 ? Math.round(value) : tenths);
}
