import type { Warning } from '../../errors/warning.js';
import type { Raster } from '../../raster/raster.js';
import type { PerAxis } from '../../surface/measurement.js';
import { inspectAxis, leastLength, seamParts } from './inspect-axis.js';
import { lookSmaller } from './look-smaller.js';
import type { InspectedSeam, Seam } from './inspected-seam.js';
import { warnOfMirror } from './warn-of-mirror.js';
import { whenAsked } from './when-asked.js';

export type { InspectedSeam, Seam } from './inspected-seam.js';

/** How well a picture repeats. */
export interface SeamInspection {
  /** Laid side by side. */
  readonly x: InspectedSeam;
  /** Laid one above the other. */
  readonly y: InspectedSeam;
  /** In words. */
  readonly verdict: string;
  /** What else a person would want to know. */
  readonly warnings: readonly Warning[];
}

/**
 * Tell whether a picture repeats without a seam, along each axis: what lies where it meets itself is
 * held against what lies inside, at several widths. Under 32 px it cannot tell, and warns.
 *
 * @param raster - In linear light.
 * @returns Scores, and a verdict in words.
 */
export function inspectSeams(raster: Raster): SeamInspection {
  const { x, y, ...told } = seamsOf(raster);
  return { x: { ...x }, y: { ...y }, ...told };
}

/**
 * Likewise, but each axis is inspected when it is asked for: often one of them decides, or one of its parts.
 *
 * @param raster - In linear light; not to be changed while anything may still be asked.
 * @returns The same.
 */
export function seamsOf(raster: Raster): SeamInspection {
  const look = whenAsked(() => lookSmaller(raster), ['raster', 'times']);
  const inspect = (axis: 'x' | 'y'): InspectedSeam =>
    whenAsked(() => inspectAxis(look, axis), seamParts);
  const [x, y] = [inspect('x'), inspect('y')];
  const isKnown = { x: raster.width >= leastLength, y: raster.height >= leastLength };
  return {
    x,
    y,
    get verdict() {
      return inWords({ x, y }, isKnown);
    },
    get warnings() {
      return [...tooSmall(raster), ...warnOfMirror({ x: x.mirror > 1, y: y.mirror > 1 }, 'both')];
    },
  };
}

function tooSmall({ width, height }: Raster): readonly Warning[] {
  if (Math.min(width, height) >= leastLength) return [];
  const message = `${width} x ${height} px is too small to tell a seam by: ${leastLength} px each way are the least`;
  return [{ code: 'too-small-to-tell', message }];
}

function inWords({ x, y }: PerAxis<Seam>, isKnown: PerAxis<boolean>): string {
  if (!isKnown.x || !isKnown.y) return 'is too small to tell';
  if (x.seamless && y.seamless) return 'repeats without a seam both ways';
  if (x.seamless) return 'repeats without a seam side by side, but not one above the other';
  if (y.seamless) return 'repeats without a seam one above the other, but not side by side';
  return 'shows a seam both ways';
}
