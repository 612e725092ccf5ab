import type { CellLight } from './cell-light.js';

/** A straight edge across the picture, beyond which the light is another. */
export interface LightEdge {
  /** Of each cell: 1 beyond the edge, 0 before it, and so much of it that lies beyond. */
  readonly beyond: Float64Array;
  /** Variance that it explains over that of a cell, once curves and edge are taken out. */
  readonly strength: number;
}

/** Directions tried over half a turn, and places in each. */
const directions = 16;
const places = 15;
/** Share of the picture on either side, at least: less is for the robust fit to leave out. */
const leastShare = 0.08;

/**
 * Find the straight edge that explains best what curves leave of the light of the cells.
 *
 * @param cells - Their places and light.
 * @param curves - What may explain it too, so many numbers a cell.
 * @returns The edge, or null where there are too few cells for one.
 */
export function findEdge(cells: CellLight, curves: Float64Array): LightEdge | null {
  const { x, y, light, count } = cells;
  const size = light.length;
  const wide = curves.length / size;
  if (size < 3 * (wide + 2)) return null;
  const level = orthonormal(curves, size);
  const rest = light.slice();
  clear(rest, level);
  const all = dot(rest, rest);
  const beyond = new Float64Array(size);
  const clean = new Float64Array(size);
  let best: Float64Array | null = null;
  let most = 0;
  // A cell is cut by the edge over its own width.
  const soft = 1 / Math.min(count.x, count.y);
  for (let turn = 0; turn < directions; turn++) {
    const angle = (Math.PI * turn) / directions;
    const [across, down] = [Math.cos(angle), Math.sin(angle)];
    const reach = Math.abs(across) + Math.abs(down);
    for (let place = 1; place <= places; place++) {
      const at = reach * ((2 * place) / (places + 1) - 1);
      let share = 0;
      for (let cell = 0; cell < size; cell++) {
        const past = (x[cell]! * across + y[cell]! * down - at) / soft;
        beyond[cell] = past <= -1 ? 0 : past >= 1 ? 1 : (past + 1) / 2;
        share += beyond[cell]!;
      }
      if (share < leastShare * size || share > (1 - leastShare) * size) continue;
      clean.set(beyond);
      clear(clean, level);
      const explains = dot(clean, rest) ** 2 / (dot(clean, clean) * all);
      if (!(explains > most)) continue;
      best = beyond.slice();
      most = explains;
    }
  }
  if (best === null) return null;
  return { beyond: best, strength: (most * (size - wide - 1)) / Math.max(1e-9, 1 - most) };
}

// Curves made upright on one another, each as long as 1.
function orthonormal(curves: Float64Array, size: number): Float64Array[] {
  const wide = curves.length / size;
  const made: Float64Array[] = [];
  for (let i = 0; i < wide; i++) {
    const curve = Float64Array.from({ length: size }, (_, cell) => curves[cell * wide + i]!);
    clear(curve, made);
    const length = Math.sqrt(dot(curve, curve));
    if (length > 1e-6) made.push(curve.map((value) => value / length));
  }
  return made;
}

// Takes out of some values what curves, upright on one another, say of them.
function clear(values: Float64Array, curves: readonly Float64Array[]): void {
  for (const curve of curves) {
    const share = dot(curve, values);
    for (let i = 0; i < values.length; i++) values[i]! -= share * curve[i]!;
  }
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}
