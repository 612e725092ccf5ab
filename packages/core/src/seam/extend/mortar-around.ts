import type { Raster } from '../../raster/raster.js';
import type { Cell } from './cell.js';

/**
 * Look at the mortar around a brick, and at its face.
 *
 * @param raster - The photo, in linear light.
 * @param cell - The brick, by the middles of its joints.
 * @param joint - A joint's width in pixels.
 * @returns Square roots of light: mortar left, right, then above and below, left half and right half of
 * each, and last the face; red, green, blue.
 */
export function mortarAround(raster: Raster, cell: Cell, joint: number): Float64Array {
  const { left, right, top, bottom } = cell;
  const half = Math.max(0.5, 0.3 * joint);
  const middle = (left + right) / 2;
  const upright = { top: top + joint, bottom: bottom - joint };
  const areas: readonly Cell[] = [
    { left: left - half, right: left + half, ...upright },
    { left: right - half, right: right + half, ...upright },
    { left, right: middle, top: top - half, bottom: top + half },
    { left: middle, right, top: top - half, bottom: top + half },
    { left, right: middle, top: bottom - half, bottom: bottom + half },
    { left: middle, right, top: bottom - half, bottom: bottom + half },
    { left: left + joint, right: right - joint, top: top + joint, bottom: bottom - joint },
  ];
  const out = new Float64Array(3 * areas.length);
  for (const [i, area] of areas.entries()) {
    for (let channel = 0; channel < 3; channel++) {
      out[3 * i + channel] = meanIn(raster.planes[channel]!, raster, area);
    }
  }
  return out;
}

function meanIn(plane: Float32Array, { width, height }: Raster, area: Cell): number {
  const x0 = Math.min(width - 1, Math.max(0, Math.round(area.left)));
  const x1 = Math.min(width, Math.max(x0 + 1, Math.round(area.right)));
  const y0 = Math.min(height - 1, Math.max(0, Math.round(area.top)));
  const y1 = Math.min(height, Math.max(y0 + 1, Math.round(area.bottom)));
  let sum = 0;
  for (let y = y0; y < y1; y++) {
    for (let i = y * width + x0; i < y * width + x1; i++) sum += Math.sqrt(Math.max(0, plane[i]!));
  }
  return sum / ((x1 - x0) * (y1 - y0));
}
