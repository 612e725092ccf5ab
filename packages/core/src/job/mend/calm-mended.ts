import { type CalmedPlace, calmTile } from '../../seam/calm/calm-tile.js';
import { inspectSeams } from '../../seam/inspect/inspect-seams.js';
import type { BestTile } from '../../seam/mend/mend-best.js';
import type { Joints } from '../../seam/mend/see-joints.js';
import type { OddPlace } from '../../seam/odd/to-odd-place.js';
import type { RepeatAxis } from '../inspect/draw-seams.js';
import { toFigures } from '../to-figures.js';

/** What was done about places that would catch the eye at each repeat. */
export interface CalmReport {
  /** Places that were replaced, in pixels of the tile; of several copies alike, those in the first. */
  readonly swapped: readonly CalmedPlace[];
  /** Places that are odd still: nothing ordinary fitted there, or a tenth of the tile was replaced. */
  readonly left: readonly OddPlace[];
}

/** How a mended tile is to be calmed. */
export interface CalmWish {
  /** Of the picture that it was made of, or null. */
  readonly joints: Joints | null;
  /** Which way it repeats. */
  readonly axis: RepeatAxis;
  /** Whether anybody asked. */
  readonly calm: boolean;
}

/** A tile as it is to be written. */
export interface CalmedMend extends Pick<BestTile, 'tile' | 'seams'> {
  /** What was done; null where nobody asked. */
  readonly calmed: CalmReport | null;
}

/**
 * Replace what is odd in a tile.
 *
 * @param mended - The tile, and how it meets itself.
 * @param wish - What is known and wanted of it.
 * @returns The tile, how it meets itself now, and what was done.
 */
export function calmMended(mended: BestTile, wish: CalmWish): CalmedMend {
  const { tile, seams } = mended;
  const { joints, axis, calm } = wish;
  if (!calm) return { tile, seams, calmed: null };
  const { raster, swapped, left } = calmTile(tile.raster, {
    repeats: tile.repeats,
    joints: joints && { ...joints, offset: joints.offset - tile.start[joints.axis] },
    axis,
  });
  const calmed = { swapped: swapped.map(inFigures), left: left.map(inFigures) };
  const isSame = raster === tile.raster;
  return { tile: { ...tile, raster }, seams: isSame ? seams : inspectSeams(raster), calmed };
}

function inFigures<Place extends OddPlace>(place: Place): Place {
  const { salience, difference } = place;
  return { ...place, salience: toFigures(salience, 3), difference: toFigures(difference, 3) };
}
