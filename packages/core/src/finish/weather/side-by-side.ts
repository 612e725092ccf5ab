import { encodeQuickly } from '../../colour/srgb.js';
import type { Raster } from '../../raster/raster.js';
import type { WallDots, WallPicture } from './paint-row.js';

/**
 * Lay pixels side by side as a row is painted with them.
 *
 * @param planes - Linear light.
 * @param joints - How like a joint or a hollow each pixel is, 0 to 1.
 * @param dots - Filled with red, green, blue, encoded, and that; an array of its own unless told.
 * @returns The same.
 */
export function sideBySide(
  planes: Raster['planes'],
  joints: Float32Array,
  dots: Float32Array = new Float32Array(4 * joints.length),
): Float32Array {
  for (const [channel, plane] of planes.entries()) {
    const levels = encodeQuickly(plane);
    for (let i = 0, to = channel; i < levels.length; i++, to += 4) dots[to] = levels[i]!;
  }
  for (let i = 0, to = 3; i < joints.length; i++, to += 4) dots[to] = joints[i]!;
  return dots;
}

/**
 * Open a picture's rows for painting.
 *
 * @param picture - It.
 * @param row - A row of it, which is filled.
 * @returns What fills it with that which begins with a pixel.
 */
export function openDots(picture: WallPicture, row: WallDots): (line: number) => void {
  const { pixels, width } = picture;
  if ('dots' in pixels) {
    return (line) => {
      row.dots.set(pixels.dots.subarray(4 * line, 4 * (line + width)));
      row.labels.set(pixels.labels.subarray(line, line + width));
    };
  }
  const { planes, joints, labels } = pixels;
  const [red, green, blue] = planes;
  return (line) => {
    const of = (plane: Float32Array): Float32Array => plane.subarray(line, line + width);
    sideBySide([of(red), of(green), of(blue)], of(joints), row.dots);
    if (labels !== null) row.labels.set(labels.subarray(line, line + width));
  };
}
