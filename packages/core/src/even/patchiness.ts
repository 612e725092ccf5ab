import type { PerAxis } from '../surface/measurement.js';

/**
 * Tell how much more than their share the waves just finer than slopes and bows hold of the scatter
 * of cells: 1 where every cell is its own, as bricks are, and more where patches spread over several.
 * Slopes and bows may hold as much by chance.
 *
 * @param rest - Of each cell, row by row, what slopes and bows leave.
 * @param count - Cells across and down.
 * @returns 1 or more.
 */
export function patchiness(rest: Float64Array, count: PerAxis<number>): number {
  let mean = 0;
  for (const value of rest) mean += value ** 2 / rest.length;
  if (!(mean > 0)) return 1;
  let power = 0;
  let waves = 0;
  for (let order = 3; order <= 5; order++) {
    for (let y = 0; y <= order; y++) {
      const x = order - y;
      if (x >= count.x || y >= count.y) continue;
      power += wavePower(rest, count, { x, y });
      waves++;
    }
  }
  return waves === 0 ? 1 : Math.max(1, power / waves / mean);
}

function wavePower(rest: Float64Array, count: PerAxis<number>, wave: PerAxis<number>): number {
  let sum = 0;
  for (let cell = 0; cell < rest.length; cell++) {
    const column = cell % count.x;
    const row = (cell - column) / count.x;
    sum +=
      rest[cell]! *
      Math.cos((Math.PI * wave.x * (column + 0.5)) / count.x) *
      Math.cos((Math.PI * wave.y * (row + 0.5)) / count.y);
  }
  // The squares of a wave come to half the cells each way it goes.
  return (sum * sum * (wave.x > 0 ? 2 : 1) * (wave.y > 0 ? 2 : 1)) / rest.length;
}
