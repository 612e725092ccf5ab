import type { Rectification } from '../surface/measurement.js';
import { type FollowedCourse, followCourse } from './follow-course.js';
import { foldRows, type View } from './fold-rows.js';
import { rankTracks } from './rank-tracks.js';
import { confidenceOf, type LevelPart, type Part, type SeenWall } from './seen-wall.js';
import { levelRaster } from './slant/level-raster.js';

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

/** Courses that are known about, and how they show. */
interface Known {
  /** The courses, in pixels of the part. */
  readonly track: FollowedCourse;
  /** What of the picture is looked at. */
  readonly view: View;
}

/**
 * Follow courses that are known about in a part of a photo, made level.
 *
 * @param part - Of the photo.
 * @param known - The courses.
 * @param rectification - What makes the photo level, or null where it is.
 * @returns Their joints, or null where they cannot be followed.
 */
export function followLevel(
  part: Part,
  known: Known,
  rectification: Rectification | null,
): SeenWall | null {
  const { track, view } = known;
  const level = makeLevel(part, rectification);
  if (level === null) return null;
  const cells = foldRows(level.raster, { view, shown: level.shown });
  const next = followCourse(cells, { ...track, course: track.placed.course });
  if (next === null) return null;
  return { ...level, part, step: part.step, track: next, view, cells, rectification, fit: null };
}

function makeLevel(part: Part, rectification: Rectification | null): LevelPart | null {
  const { raster, step, left, top, photo } = part;
  if (rectification !== null) {
    return levelRaster(raster, { rectification, size: photo, step, left, top });
  }
  const from = new Int32Array(raster.width);
  const to = new Int32Array(raster.width).fill(raster.height);
  return { raster, left, top, shown: { from, to } };
}
