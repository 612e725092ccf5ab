import { toLevelPoint, toPhotoPoint } from '../surface/level-point.js';
import type { PerAxis, Rectification } from '../surface/measurement.js';
import type { Point } from '../units/parse-point.js';
import type { PageWindow } from './ink-field.js';
import type { Path } from './trace-path.js';

/** How points of the level picture come to lie on the page. */
export interface WallFrame {
  /** The photo's columns and rows. */
  readonly size: { readonly width: number; readonly height: number };
  /** From photo to level picture, or null where they are the same. */
  readonly rectification: Rectification | null;
  /** Where the photo lies on the page. */
  readonly photo: PageWindow;
  /** Pixels of the page for each of the photo's. */
  readonly scale: PerAxis<number>;
}

/** Points a side or a line is followed by, where it may be bent. */
const steps = 48;

function photoToPage(frame: WallFrame, point: Point): Point {
  const { photo, scale } = frame;
  return {
    x: photo.x + point.x * scale.x,
    y: photo.y + point.y * scale.y,
  };
}

/**
 * Bring a point of the level picture onto the page.
 *
 * @param frame - How.
 * @param point - In pixels of the level picture.
 * @returns In pixels of the page.
 */
export function levelToPage(frame: WallFrame, point: Point): Point {
  const { rectification, size } = frame;
  return photoToPage(
    frame,
    rectification === null ? point : toPhotoPoint(rectification, size, point),
  );
}

/**
 * Find where a point of the photo lies in the level picture.
 *
 * @param frame - How.
 * @param point - In pixels of the photo.
 * @returns In pixels of the level picture.
 */
export function photoToLevel(frame: WallFrame, point: Point): Point {
  const { rectification, size } = frame;
  return rectification === null ? point : toLevelPoint(rectification, size, point);
}

/**
 * Follow a straight line of the wall across the page, where perspective and lens may bend it.
 *
 * @param frame - How the wall lies.
 * @param from - One end, in pixels of the level picture.
 * @param to - The other.
 * @returns Point by point.
 */
export function lineOnPage(frame: WallFrame, from: Point, to: Point): Path {
  const count = frame.rectification === null ? 1 : steps;
  const path: number[] = [];
  for (let step = 0; step <= count; step++) {
    const t = step / count;
    const { x, y } = levelToPage(frame, {
      x: from.x + t * (to.x - from.x),
      y: from.y + t * (to.y - from.y),
    });
    if (Number.isFinite(x) && Number.isFinite(y)) path.push(x, y);
  }
  return path;
}

/**
 * Find how much of the level picture the photo shows.
 *
 * @param frame - How it is made level.
 * @returns The smallest upright rectangle that holds all of it, in pixels of the level picture.
 */
export function seenOnWall(frame: WallFrame): PageWindow {
  const { width, height } = frame.size;
  let [left, right, top, bottom] = [Infinity, -Infinity, Infinity, -Infinity];
  for (let step = 0; step <= steps; step++) {
    const u = (width * step) / steps;
    const v = (height * step) / steps;
    for (const edge of [
      { x: u, y: 0 },
      { x: u, y: height },
      { x: 0, y: v },
      { x: width, y: v },
    ]) {
      const { x, y } = photoToLevel(frame, edge);
      left = Math.min(left, x);
      right = Math.max(right, x);
      top = Math.min(top, y);
      bottom = Math.max(bottom, y);
    }
  }
  return { x: left, y: top, width: right - left, height: bottom - top };
}
