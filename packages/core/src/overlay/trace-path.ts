import type { InkField, PageWindow } from './ink-field.js';

/** A line on the page: x and y in turn, two numbers a point; one point alone is a dot. */
export type Path = readonly number[];

/** What {@link tracePath} is told of a line. */
export interface Stroke {
  /** Half of the line's width. */
  readonly half: number;
  /** How far outside the line distances are wanted. */
  readonly reach: number;
  /** The part of the page that it may touch. */
  readonly clip: PageWindow;
}

/**
 * Trace a line with round ends into a field.
 *
 * @param field - Lowered where the line is nearer than what is there.
 * @param path - The line.
 * @param stroke - Its width, and where it may go.
 */
export function tracePath(field: InkField, path: Path, stroke: Stroke): void {
  if (path.length === 2) traceSegment(field, [...path, ...path], stroke);
  for (let i = 0; i + 3 < path.length; i += 2) traceSegment(field, path.slice(i, i + 4), stroke);
}

function traceSegment(field: InkField, ends: Path, { half, reach, clip }: Stroke): void {
  const [ax = 0, ay = 0, bx = 0, by = 0] = ends;
  const far = half + reach;
  const { width, distance } = field;
  const left = Math.max(clip.x, Math.floor(Math.min(ax, bx) - far));
  const right = Math.min(clip.x + clip.width, Math.ceil(Math.max(ax, bx) + far));
  const top = Math.max(clip.y, Math.floor(Math.min(ay, by) - far));
  const bottom = Math.min(clip.y + clip.height, Math.ceil(Math.max(ay, by) + far));
  const dx = bx - ax;
  const dy = by - ay;
  const square = dx * dx + dy * dy;
  const per = square > 0 ? 1 / square : 0;
  const farSquare = far * far;
  for (let y = top; y < bottom; y++) {
    const v = y + 0.5 - ay;
    for (let x = left, i = y * width + left; x < right; x++, i++) {
      const u = x + 0.5 - ax;
      const along = (u * dx + v * dy) * per;
      const t = along < 0 ? 0 : along > 1 ? 1 : along;
      const ex = u - t * dx;
      const ey = v - t * dy;
      const apart = ex * ex + ey * ey;
      if (apart > farSquare) continue;
      const edge = Math.sqrt(apart) - half;
      if (edge < distance[i]!) distance[i] = edge;
    }
  }
}
