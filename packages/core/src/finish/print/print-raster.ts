import { encodeQuickly, fromSrgb } from '../../colour/srgb.js';
import type { Raster } from '../../raster/raster.js';
import { changeColours, type ColourTable } from './colour-table.js';

const entries = 4096;
let lights: Float32Array | undefined;

/**
 * Change the colours of a picture by a table, without rounding them to bytes.
 *
 * @param raster - In linear light; left as it is.
 * @param table - What becomes of colours.
 * @returns A raster of its own.
 */
export function changeRaster(raster: Raster, table: ColourTable): Raster {
  lights ??= Float32Array.from({ length: entries + 2 }, (_, i) =>
    fromSrgb(Math.min(1, i / entries)),
  );
  const light = lights;
  const { width, height, planes } = raster;
  const size = width * height;
  const out = [new Float32Array(size), new Float32Array(size), new Float32Array(size)] as const;
  const colours = new Float32Array(3 * width);
  for (let from = 0; from < size; from += width) {
    planes.forEach((plane, channel) => {
      const levels = encodeQuickly(plane.subarray(from, from + width));
      for (let x = 0, to = channel; x < width; x++, to += 3) colours[to] = levels[x]!;
    });
    changeColours(table, colours);
    out.forEach((plane, channel) => {
      for (let x = 0, at = channel; x < width; x++, at += 3) {
        const place = entries * Math.min(1, Math.max(0, colours[at]!));
        const below = place | 0;
        plane[from + x] = light[below]! + (place - below) * (light[below + 1]! - light[below]!);
      }
    });
  }
  return { width, height, planes: out };
}
