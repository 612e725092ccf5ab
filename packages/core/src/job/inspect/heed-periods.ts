import { unknownSeam } from '../../seam/inspect/inspect-axis.js';
import type { SeamInspection } from '../../seam/inspect/inspect-seams.js';
import type { RepeatAxis } from './draw-seams.js';
import { findFew, type SeenSurface } from './find-few.js';
import { warnOfFew } from './warn-of-few.js';

const ways = { x: 'side by side', y: 'one above the other' } as const;

/**
 * Call no picture seamless along an axis along which it shows too little to tell.
 *
 * @param seams - Of the picture.
 * @param surface - Its pixels, and its joints where they are known.
 * @param asked - Which way it is to repeat.
 * @returns The same, but unknown along such an axis, with a warning.
 */
export function heedPeriods(
  seams: SeamInspection,
  surface: SeenSurface,
  asked: RepeatAxis,
): SeamInspection {
  const few = findFew(seams, surface);
  if (!few.x && !few.y) return seams;
  const x = few.x ? unknownSeam : seams.x;
  const y = few.y ? unknownSeam : seams.y;
  const told = { x: few.x && asked !== 'y', y: few.y && asked !== 'x' };
  const warnings = [...seams.warnings, ...warnOfFew(told)];
  return { x, y, verdict: inWords({ x, y }), warnings };
}

// Along one axis at least nobody can tell.
function inWords(seams: Pick<SeamInspection, 'x' | 'y'>): string {
  const isUntold = (axis: 'x' | 'y'): boolean =>
    !seams[axis].seamless && seams[axis].seamScore <= 1;
  if (isUntold('x') && isUntold('y')) return 'is too small to tell';
  const [told, untold] = isUntold('x') ? (['y', 'x'] as const) : (['x', 'y'] as const);
  const { seamless } = seams[told];
  const how = seamless ? 'repeats without a seam' : 'shows a seam';
  return `${how} ${ways[told]}, ${seamless ? 'but' : 'and'} is too small to tell ${ways[untold]}`;
}
