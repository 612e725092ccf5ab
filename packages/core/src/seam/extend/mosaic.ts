import { createRaster, type Raster } from '../../raster/raster.js';

/** A tile in the making, of pieces that fade into one another. */
export interface Mosaic {
  /** Light of all pieces, added up, each as much as its share. */
  readonly raster: Raster;
  /** Their shares, added up. */
  readonly shares: Float32Array;
}

/**
 * Begin a mosaic.
 *
 * @param width - Columns.
 * @param height - Rows.
 * @returns Nothing in it.
 */
export function createMosaic(width: number, height: number): Mosaic {
  return { raster: createRaster(width, height), shares: new Float32Array(width * height) };
}

/**
 * Make the shares of all pieces come to one: where courses bend they lap a little, or leave a little room.
 *
 * @param mosaic - Whose raster is changed.
 * @returns That raster.
 */
export function settleMosaic(mosaic: Mosaic): Raster {
  const { raster, shares } = mosaic;
  for (const plane of raster.planes) {
    for (let i = 0; i < plane.length; i++) plane[i]! /= shares[i]! || 1;
  }
  return raster;
}
