import type { Raster } from '../raster/raster.js';
import type { InkField, PageWindow } from './ink-field.js';
import type { Ink } from './inks.js';

/** An ink, and what stands around it so that it shows on light and dark alike. */
export interface InkedWith {
  /** Of the shape itself. */
  readonly ink: Ink;
  /** Around it, or null for none. */
  readonly casing: Ink | null;
  /** How far the casing stands out. */
  readonly out: number;
  /** The part of the page that was traced. */
  readonly clip: PageWindow;
}

/**
 * Ink what was traced onto a page, its edges smooth over one pixel, in linear light.
 *
 * @param page - Changed in place.
 * @param field - What was traced; left empty.
 * @param inked - With what.
 */
export function layInk(page: Raster, field: InkField, inked: InkedWith): void {
  const { ink, casing, out, clip } = inked;
  const { width, distance } = field;
  const reach = (casing === null ? 0 : out) + 0.5;
  const [red, green, blue] = page.planes;
  const [r, g, b] = ink;
  const [cr, cg, cb] = casing ?? ink;
  const right = clip.x + clip.width;
  const bottom = clip.y + clip.height;
  for (let y = clip.y; y < bottom; y++) {
    for (let x = clip.x, i = y * width + clip.x; x < right; x++, i++) {
      const edge = distance[i]!;
      if (edge === Infinity) continue;
      distance[i] = Infinity;
      if (edge >= reach) continue;
      if (casing !== null) {
        const around = Math.min(1, reach - edge);
        red[i]! += around * (cr - red[i]!);
        green[i]! += around * (cg - green[i]!);
        blue[i]! += around * (cb - blue[i]!);
      }
      if (edge >= 0.5) continue;
      const inside = Math.min(1, 0.5 - edge);
      red[i]! += inside * (r - red[i]!);
      green[i]! += inside * (g - green[i]!);
      blue[i]! += inside * (b - blue[i]!);
    }
  }
}
