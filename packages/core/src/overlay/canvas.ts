import type { Raster } from '../raster/raster.js';
import type { InkField, PageWindow } from './ink-field.js';
import type { Ink } from './inks.js';
import { layInk } from './lay-ink.js';
import { traceArea } from './trace-area.js';
import { type Path, tracePath } from './trace-path.js';

/** What an overlay is drawn on. */
export interface Canvas {
  /** The picture that comes out. */
  readonly page: Raster;
  /** Scratch, as large as the page; empty between two strokes of the pen. */
  readonly field: InkField;
  /** A thousandth of the photo's long side as drawn: what widths and letters are measured in. */
  readonly unit: number;
  /** Where the photo lies on the page. */
  readonly photo: PageWindow;
}

/** How something is drawn. */
export interface Pen {
  /** Width of its lines in pixels. */
  readonly width: number;
  /** Its colour. */
  readonly ink: Ink;
  /** What stands around it, or null for nothing. */
  readonly casing?: Ink | null;
  /** How far, in pixels. */
  readonly out?: number;
  /** The part of the page that it may touch; all of it unless told. */
  readonly clip?: PageWindow;
}

/**
 * Draw lines, all of them as one shape.
 *
 * @param canvas - Its page is changed.
 * @param paths - The lines.
 * @param pen - How.
 */
export function layStrokes(canvas: Canvas, paths: readonly Path[], pen: Pen): void {
  const half = pen.width / 2;
  const reach = (pen.casing ? (pen.out ?? 0) : 0) + 1;
  const clip = boundsOf(canvas, paths, { pen, far: half + reach });
  if (clip === null) return;
  for (const path of paths) tracePath(canvas.field, path, { half, reach, clip });
  ink(canvas, pen, clip);
}

/**
 * Fill convex outlines, all of them as one shape.
 *
 * @param canvas - Its page is changed.
 * @param outlines - Their corners.
 * @param pen - How; its width has no say.
 */
export function layAreas(canvas: Canvas, outlines: readonly Path[], pen: Pen): void {
  const reach = (pen.casing ? (pen.out ?? 0) : 0) + 1;
  const clip = boundsOf(canvas, outlines, { pen, far: reach });
  if (clip === null) return;
  for (const outline of outlines) traceArea(canvas.field, outline, { reach, clip });
  ink(canvas, pen, clip);
}

function ink({ page, field }: Canvas, pen: Pen, clip: PageWindow): void {
  layInk(page, field, { ink: pen.ink, casing: pen.casing ?? null, out: pen.out ?? 0, clip });
}

// The whole pixels that may be touched, or null where that is none.
function boundsOf(
  { page }: Canvas,
  paths: readonly Path[],
  by: { readonly pen: Pen; readonly far: number },
): PageWindow | null {
  const { clip = { x: 0, y: 0, width: page.width, height: page.height } } = by.pen;
  let [left, right, top, bottom] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const path of paths) {
    for (let i = 0; i < path.length; i += 2) {
      left = Math.min(left, path[i]!);
      right = Math.max(right, path[i]!);
      top = Math.min(top, path[i + 1]!);
      bottom = Math.max(bottom, path[i + 1]!);
    }
  }
  const x = Math.max(clip.x, Math.floor(left - by.far));
  const y = Math.max(clip.y, Math.floor(top - by.far));
  const width = Math.min(clip.x + clip.width, Math.ceil(right + by.far)) - x;
  const height = Math.min(clip.y + clip.height, Math.ceil(bottom + by.far)) - y;
  return width > 0 && height > 0 ? { x, y, width, height } : null;
}
