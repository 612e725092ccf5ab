import { shorterWay } from '../../numeric/shorter-way.js';
import type { Raster } from '../../raster/raster.js';
import type { PerAxis } from '../../surface/measurement.js';
import { findOdd } from '../odd/find-odd.js';
import type { OddPlace } from '../odd/to-odd-place.js';
import { takePlane } from './take-window.js';

/**
 * Find what will catch the eye each time a tile repeats, over its ends too: there the two sides meet, so
 * that what lies over them is whole.
 *
 * @param tile - In linear light.
 * @param wrap - Along which axes it repeats.
 * @returns The oddest first; a place over an end begins before it and goes past it.
 */
export function findOddAround(tile: Raster, wrap: PerAxis<boolean>): OddPlace[] {
  const { width, height } = tile;
  const inside = findOdd(tile);
  const half = { x: wrap.x ? width >> 1 : 0, y: wrap.y ? height >> 1 : 0 };
  if (half.x === 0 && half.y === 0) return inside;
  const [red, green, blue] = tile.planes;
  const rolled = (plane: Float32Array): Float32Array =>
    takePlane(plane, tile, { ...half, width, height });
  const over = findOdd({ width, height, planes: [rolled(red), rolled(green), rolled(blue)] })
    .map((place) => ({
      ...place,
      x: (place.x + half.x) % width,
      y: (place.y + half.y) % height,
    }))
    .filter((place) => place.x + place.width > width || place.y + place.height > height);
  // A part of what lies over an end is told with it.
  const alone = inside.filter((one) => !over.some((other) => meets(one, other, tile)));
  return [...alone, ...over].sort((a, b) => b.salience - a.salience);
}

function meets(one: OddPlace, other: OddPlace, { width, height }: Raster): boolean {
  const across = shorterWay(one.x + one.width / 2 - other.x - other.width / 2, width);
  const down = shorterWay(one.y + one.height / 2 - other.y - other.height / 2, height);
  return (
    2 * Math.abs(across) < one.width + other.width && 2 * Math.abs(down) < one.height + other.height
  );
}
