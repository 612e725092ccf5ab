import type { Rectification } from '../surface/measurement.js';
import { dividesWell } from './joints/divides-well.js';
import { foldRows } from './joints/fold-rows.js';
import { isBetter } from './is-better.js';
import { makeLevel } from './make-level.js';
import { rankTracks } from './joints/rank-tracks.js';
import { confidenceOf, type Part, type SeenWall } from './seen-wall.js';

/**
 * Look for courses in a part of a photo, made level. Mortar no lighter or darker than its bricks is
 * still of another colour.
 *
 * @param part - Of the photo.
 * @param rectification - What makes the photo level, or null where it is.
 * @param enough - Above this confidence, there is no need to look in another way.
 * @returns The courses that show best, or null where none do.
 */
export function lookLevel(
  part: Part,
  rectification: Rectification | null,
  enough: number,
): SeenWall | null {
  const level = makeLevel(part, rectification);
  if (level === null) return null;
  let best: SeenWall | null = null;
  for (const view of ['lightness', 'warmth'] as const) {
    const cells = foldRows(level.raster, { view, shown: level.shown });
    const [track, ...others] = rankTracks(cells);
    if (track) {
      const { step } = part;
      const seen = { ...level, part, step, track, view, cells, rectification, fit: null };
      if (isBetter(seen, best)) best = seen;
      // Every second joint may hardly show in one view, and plainly in another.
      if (others.some((other) => dividesWell(other, track, 0.75))) continue;
    }
    if (confidenceOf(best) > enough) break;
  }
  return best;
}
