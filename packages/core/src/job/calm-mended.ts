import { type CalmedPlace, calmTile } from '../seam/calm-tile.js';
import type { Tile } from '../seam/mend-tile.js';
import type { Joints } from '../seam/see-joints.js';
import type { OddPlace } from '../seam/to-odd-place.js';
import type { RepeatAxis } from './draw-seams.js';
import { toFigures } from './to-figures.js';

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

/**
 * Replace what is odd in a tile.
 *
 * @param tile - As mended.
 * @param wish - What is known and wanted of it.
 * @returns The tile, and what was done; null where nobody asked.
 */
export function calmMended(
  tile: Tile,
  wish: CalmWish,
): { readonly tile: Tile; readonly calmed: CalmReport | null } {
  const { joints, axis, calm } = wish;
  if (!calm) return { tile, calmed: null };
  const { raster, swapped, left } = calmTile(tile.raster, {
    repeats: tile.repeats,
    joints: joints && { ...joints, offset: joints.offset - tile.start[joints.axis] },
    axis,
  });
  const calmed = { swapped: swapped.map(inFigures), left: left.map(inFigures) };
  return { tile: { ...tile, raster }, calmed };
}

function inFigures<Place extends OddPlace>(place: Place): Place {
  const { salience, difference } = place;
  return { ...place, salience: toFigures(salience, 3), difference: toFigures(difference, 3) };
}
