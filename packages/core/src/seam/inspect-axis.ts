import type { Raster } from '../raster/raster.js';

// Several widths, so that an edge softened by blur or compression does not hide.
const distances = [1, 2, 4] as const;

/**
 * Score how well a picture meets itself along an axis.
 *
 * @param raster - In linear light.
 * @param axis - `x`: its right side against its left; `y`: its bottom against its top.
 * @returns The step across the wrap over the 95th percentile of steps inside, the worst of several
 * widths.
 */
export function inspectAxis(raster: Raster, axis: 'x' | 'y'): number {
  const length = axis === 'x' ? raster.width : raster.height;
  let worst = 0;
  for (const distance of distances) {
    if (length <= 4 * distance) break;
    const steps = stepsAlong(raster, axis, distance);
    const inside = steps.slice(0, length - distance).sort();
    const usual = inside[Math.floor(0.95 * (inside.length - 1))]!;
    // The wrap is where samples on both sides of it are compared; the least of them stands for it.
    let across = Infinity;
    for (let at = length - distance; at < length; at++) across = Math.min(across, steps[at]!);
    worst = Math.max(worst, across / Math.max(usual, 1e-6));
  }
  return worst;
}

// Root mean square difference, in roots of light, of each line from the one so far on.
function stepsAlong(raster: Raster, axis: 'x' | 'y', distance: number): Float64Array {
  const { width, height } = raster;
  const [length, across] = axis === 'x' ? [width, height] : [height, width];
  const [stepAlong, stepAcross] = axis === 'x' ? [1, width] : [width, 1];
  const every = Math.max(1, across >> 9);
  const steps = new Float64Array(length);
  for (const plane of raster.planes) {
    for (let line = 0; line < across; line += every) {
      const start = line * stepAcross;
      for (let at = 0; at < length; at++) {
        const next = at + distance < length ? at + distance : at + distance - length;
        const here = Math.sqrt(Math.max(0, plane[start + at * stepAlong]!));
        const there = Math.sqrt(Math.max(0, plane[start + next * stepAlong]!));
        steps[at]! += (here - there) * (here - there);
      }
    }
  }
  const count = 3 * Math.ceil(across / every);
  for (let at = 0; at < length; at++) steps[at] = Math.sqrt(steps[at]! / count);
  return steps;
}
