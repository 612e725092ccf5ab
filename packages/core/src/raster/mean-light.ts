import type { Raster } from './raster.js';

/**
 * Average a picture.
 *
 * @param raster - In linear light.
 * @returns The mean of red, green and blue.
 */
export function meanLight(raster: Raster): [red: number, green: number, blue: number] {
  const [red, green, blue] = raster.planes;
  return [meanOf(red), meanOf(green), meanOf(blue)];
}

function meanOf(plane: Float32Array): number {
  const size = plane.length;
  let sum = 0;
  for (let i = 0; i < size; i++) sum += plane[i]!;
  return sum / size;
}
