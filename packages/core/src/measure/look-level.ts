import type { Rectification } from '../surface/measurement.js';
import { foldRows } from './fold-rows.js';
import { makeLevel } from './make-level.js';
import { rankTracks } from './rank-tracks.js';
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
    const [track] = rankTracks(cells);
    if (track && track.weight.confidence > confidenceOf(best)) {
      best = { ...level, part, step: part.step, track, view, cells, rectification, fit: null };
    }
    if (confidenceOf(best) > enough) break;
  }
  return best;
}
