import type { Rectification } from '../surface/measurement.js';
import type { LevelPart, Part } from './seen-wall.js';
import { levelRaster } from './slant/level-raster.js';

/**
 * Make a part of a photo level.
 *
 * @param part - Of the photo.
 * @param rectification - What makes the photo level, or null where it is.
 * @returns The part, or null where nothing of it is left.
 */
export function makeLevel(part: Part, rectification: Rectification | null): LevelPart | null {
  const { raster, step, left, top, photo } = part;
  if (rectification !== null) {
    return levelRaster(raster, { rectification, size: photo, step, left, top });
  }
  const from = new Int32Array(raster.width);
  const to = new Int32Array(raster.width).fill(raster.height);
  return { raster, left, top, shown: { from, to } };
}
