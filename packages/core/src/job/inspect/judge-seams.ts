import type { Warning } from '../../errors/warning.js';
import type { Raster } from '../../raster/raster.js';
import { type AxisCopies, findCopies } from '../../seam/copies/find-copies.js';
import type { InspectedSeam } from '../../seam/inspect/inspected-seam.js';
import { warnOfMirror } from '../../seam/inspect/warn-of-mirror.js';
import type { PerAxis } from '../../surface/measurement.js';
import type { RepeatAxis } from './draw-seams.js';

/** A tile that was made of a photo. */
export interface JudgedTile {
  /** As it is now. */
  readonly raster: Raster;
  /** How it meets itself. */
  readonly seams: PerAxis<InspectedSeam>;
  /** What of the photo was a copy; left out where no part of it was kept as it lay. */
  readonly copies?: PerAxis<AxisCopies>;
}

/**
 * Warn of seams that still show where they were to go, and of bricks that come out double where one
 * side of the tile is the other in a mirror.
 *
 * @param tile - Finished.
 * @param axis - Which way it was to repeat.
 * @returns A warning for every one.
 */
export function judgeSeams(tile: JudgedTile, axis: RepeatAxis): readonly Warning[] {
  const { seams } = tile;
  const asked = axis === 'both' ? (['x', 'y'] as const) : [axis];
  const visible = asked
    .filter((which) => !seams[which].seamless)
    .map((which): Warning => {
      const way = which === 'x' ? 'side by side' : 'one above the other';
      const message = `a seam may still show where the picture repeats ${way}: look at it before printing`;
      return { code: 'visible-seam', message };
    });
  return [...visible, ...warnOfMirror(findMirrors(tile), axis)];
}

// Once its ends are cut into one another, a mirror stands beside the wrap: it is looked for all over
// the tile, where the photo had one.
function findMirrors({ raster, seams, copies }: JudgedTile): PerAxis<boolean> {
  const hadOne = copies !== undefined && (copies.x.mirror !== null || copies.y.mirror !== null);
  const within = hadOne ? findCopies(raster) : null;
  const isMirrored = (axis: 'x' | 'y'): boolean =>
    seams[axis].mirror > 1 || (within !== null && within[axis].mirror !== null);
  return { x: isMirrored('x'), y: isMirrored('y') };
}
