import type { Rectification } from '../surface/measurement.js';
import { type FollowedCourse, followCourse } from './joints/follow-course.js';
import { foldRows, type View } from './joints/fold-rows.js';
import { makeLevel } from './make-level.js';
import type { Part, SeenWall } from './seen-wall.js';

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
