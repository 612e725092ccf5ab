import type { InkField, PageWindow } from './ink-field.js';
import type { Path } from './trace-path.js';

/** What {@link traceArea} is told of an outline. */
export interface AreaLimits {
  /** How far outside it distances are wanted. */
  readonly reach: number;
  /** The part of the page that it may touch. */
  readonly clip: PageWindow;
}

/**
 * Trace the inside of a convex outline into a field.
 *
 * @param field - Lowered where the area is nearer than what is there.
 * @param outline - Its corners, in either turn.
 * @param limits - How far outside distances are wanted, and where it may go.
 */
export function traceArea(field: InkField, outline: Path, limits: AreaLimits): void {
  const { reach, clip } = limits;
  const { width, distance } = field;
  const sides = toSides(outline);
  const xs = outline.filter((_, i) => i % 2 === 0);
  const ys = outline.filter((_, i) => i % 2 === 1);
  const left = Math.max(clip.x, Math.floor(Math.min(...xs) - reach));
  const right = Math.min(clip.x + clip.width, Math.ceil(Math.max(...xs) + reach));
  const top = Math.max(clip.y, Math.floor(Math.min(...ys) - reach));
  const bottom = Math.min(clip.y + clip.height, Math.ceil(Math.max(...ys) + reach));
  for (let y = top; y < bottom; y++) {
    for (let x = left, i = y * width + left; x < right; x++, i++) {
      let edge = -Infinity;
      for (let side = 0; side < sides.length; side += 3) {
        const out = sides[side]! * (x + 0.5) + sides[side + 1]! * (y + 0.5) + sides[side + 2]!;
        if (out > edge) edge = out;
      }
      if (edge <= reach && edge < distance[i]!) distance[i] = edge;
    }
  }
}

// Each side as a, b, c: a x + b y + c is how far a point lies outside it.
function toSides(outline: Path): Float64Array {
  const corners = outline.length / 2;
  const sides = new Float64Array(3 * corners);
  let area = 0;
  for (let i = 0; i < corners; i++) {
    const j = (i + 1) % corners;
    area += outline[2 * i]! * outline[2 * j + 1]! - outline[2 * j]! * outline[2 * i + 1]!;
  }
  const turn = area > 0 ? 1 : -1;
  for (let i = 0; i < corners; i++) {
    const j = (i + 1) % corners;
    const dx = outline[2 * j]! - outline[2 * i]!;
    const dy = outline[2 * j + 1]! - outline[2 * i + 1]!;
    const length = Math.hypot(dx, dy) || 1;
    const a = (turn * dy) / length;
    const b = (-turn * dx) / length;
    sides.set([a, b, -a * outline[2 * i]! - b * outline[2 * i + 1]!], 3 * i);
  }
  return sides;
}
