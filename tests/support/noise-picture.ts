import { createRaster, type Raster } from '@gaugerod/core';

// A small generator of the multiply-and-add kind (Numerical Recipes, 1664525 and 1013904223).
function numbersFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 4_294_967_296;
  };
}

/**
 * A picture of grain without courses.
 *
 * @param width - Columns.
 * @param height - Rows.
 * @param seed - The same seed gives the same picture.
 * @returns Linear light from 0.1 to 0.7.
 */
export function noisePicture(width: number, height: number, seed: number): Raster {
  const raster = createRaster(width, height);
  const next = numbersFrom(seed);
  for (const plane of raster.planes) {
    for (let i = 0; i < plane.length; i++) plane[i] = 0.1 + 0.6 * next();
  }
  return raster;
}
