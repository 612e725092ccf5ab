import type { Raster } from '../../raster/raster.js';
import type { PerAxis } from '../../surface/measurement.js';

// Darker than round about by this share is surely a hollow.
const deep = 0.35;

/**
 * See the hollows of a surface whose joints are not known: what is darker than what lies round it.
 *
 * @param raster - In linear light.
 * @param reach - How far round a pixel is looked, pixels, right and down.
 * @returns 0 none to 1 surely, row by row. Past an edge the other end is looked at.
 */
export function seeHollows(raster: Raster, reach: PerAxis<number>): Float32Array {
  const { width, height, planes } = raster;
  const [red, green, blue] = planes;
  const light = red.map((value, i) =>
    Math.sqrt(Math.max(0, 0.2126 * value + 0.7152 * green[i]! + 0.0722 * blue[i]!)),
  );
  // One plane besides, which becomes the answer: of a large photo there is no room for more.
  const around = light.slice();
  const line = new Float32Array(Math.max(width, height));
  for (let y = 0; y < height; y++) {
    boxMean(around, line, { at: y * width, step: 1, count: width, reach: reach.x });
  }
  for (let x = 0; x < width; x++) {
    boxMean(around, line, { at: x, step: width, count: height, reach: reach.y });
  }
  for (let i = 0; i < light.length; i++) {
    const dark = 1 - light[i]! / Math.max(1e-3, around[i]!);
    around[i] = dark <= 0 ? 0 : Math.min(1, dark / deep);
  }
  return around;
}

interface Line {
  readonly at: number;
  readonly step: number;
  readonly count: number;
  readonly reach: number;
}

// Mean over a run of pixels, round the ends, in their place; `line` has room for them as they were.
function boxMean(plane: Float32Array, line: Float32Array, { at, step, count, reach }: Line): void {
  const half = Math.min(Math.floor((count - 1) / 2), Math.max(1, Math.round(reach)));
  const wide = 2 * half + 1;
  for (let i = 0, from = at; i < count; i++, from += step) line[i] = plane[from]!;
  const indexOf = (i: number): number => ((i % count) + count) % count;
  let sum = 0;
  for (let i = -half; i <= half; i++) sum += line[indexOf(i)]!;
  for (let i = 0; i < count; i++) {
    plane[at + step * i] = sum / wide;
    sum += line[indexOf(i + half + 1)]! - line[indexOf(i - half)]!;
  }
}
