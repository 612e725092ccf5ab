import type { ReliefShape, ShadedPiece, ShapeClip } from '../../page/relief-mark.js';
import { moveMark } from '../../page/move-mark.js';
import type { PerAxis } from '../../surface/measurement.js';
import { addEdge } from '../../numeric/add-edge.js';
import { shadeAt } from './shade-at.js';

interface DotGrid {
  readonly perMm: number;
  readonly inset: PerAxis<number>;
}

/** A shape as it lies on dots. */
export interface DotShape {
  /** Tells it from others. */
  readonly kind: 'shape';
  /** Columns and rows that it may reach. */
  readonly x0: number;
  /** Its right side. */
  readonly x1: number;
  /** Its top. */
  readonly y0: number;
  /** Its foot. */
  readonly y1: number;
  /**
   * Tell how light each dot of a row becomes.
   *
   * @param y - The row.
   * @returns From column `x0` on: what a dot is covered by, times its shade, -1 to 1; used again for the next row.
   */
  readonly shadesOf: (y: number) => Float64Array;
}

/**
 * Lay a shape on dots: each takes as much of it as it covers, exactly where its lines cross no other.
 *
 * @param shape - In mm of paper.
 * @param grid - Dots to a mm, and from the page's corner to the shape's origin.
 * @returns The shape, in dots.
 */
export function toDotShape(shape: ReliefShape, grid: DotGrid): DotShape {
  const { perMm, inset } = grid;
  const moved = moveMark(shape, inset.x / perMm, inset.y / perMm);
  const { pieces, clip } = moved;
  const all = pieces.flatMap(({ loops }) => loops);
  const box = boxOf(all, perMm);
  const laid = pieces.map((piece) => layPiece(piece, perMm, box.x0));
  const cut = clip === null ? null : layClip(clip, perMm, box.x0);
  const width = Math.max(0, box.x1 - box.x0);
  const shades = new Float64Array(width);
  const differences = new Float64Array(width + 2);
  let known = NaN;
  return {
    kind: 'shape',
    ...box,
    shadesOf: (y) => {
      if (y === known) return shades;
      known = y;
      shades.fill(0);
      for (const piece of laid) piece.add(y, shades, differences);
      cut?.(y, shades, differences);
      return shades;
    },
  };
}

interface DotBox {
  readonly x0: number;
  readonly x1: number;
  readonly y0: number;
  readonly y1: number;
}

// Of whole dots.
function boxOf(loops: readonly Float64Array[], perMm: number): DotBox {
  let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const loop of loops) {
    for (let i = 0; i < loop.length; i += 2) {
      const [x, y] = [loop[i]! * perMm, loop[i + 1]! * perMm];
      [x0, x1] = [Math.min(x0, x), Math.max(x1, x)];
      [y0, y1] = [Math.min(y0, y), Math.max(y1, y)];
    }
  }
  return { x0: Math.floor(x0), x1: Math.ceil(x1), y0: Math.floor(y0), y1: Math.ceil(y1) };
}

interface LaidPiece {
  readonly add: (y: number, shades: Float64Array, differences: Float64Array) => void;
}

function layPiece(piece: ShadedPiece, perMm: number, left: number): LaidPiece {
  const { toward, stops } = piece;
  const { edges, rows, first } = listRows(piece.loops, perMm, left);
  const inDots = stops.map(({ at, shade }) => ({ at: at * perMm, shade }));
  const [only] = inDots;
  const even = inDots.length === 1 ? (only?.shade ?? 0) : null;
  return {
    add: (y, shades, differences) => {
      const row = rows[y - first];
      if (row === undefined || row.length === 0) return;
      const reach = addRow(edges, row, y, differences);
      let sum = 0;
      for (let i = reach.from; i < reach.to; i++) {
        sum += differences[i]!;
        differences[i] = 0;
        if (i >= shades.length) continue;
        const cover = Math.min(1, Math.abs(sum));
        if (cover === 0) continue;
        const at = (left + i + 0.5) * toward.x + (y + 0.5) * toward.y;
        shades[i] = shades[i]! + cover * (even ?? shadeAt(inDots, at));
      }
    },
  };
}

// What lies left of the shape counts from its left side on; what lies right of it, nowhere.
function layClip(
  { loops, side }: ShapeClip,
  perMm: number,
  left: number,
): (y: number, shades: Float64Array, differences: Float64Array) => void {
  const { edges, rows, first } = listRows(loops, perMm, left);
  return (y, shades, differences) => {
    const row = rows[y - first] ?? [];
    addRow(edges, row, y, differences);
    let sum = 0;
    for (let i = 0; i < differences.length; i++) {
      sum += differences[i]!;
      differences[i] = 0;
      if (i >= shades.length) continue;
      const inside = Math.min(1, Math.abs(sum));
      const most = side === 'inside' ? inside : 1 - inside;
      shades[i] = shades[i]! * most;
    }
  };
}

interface EdgeRows {
  // x, y, x, y of each, from its upper end to its lower, and 1 where the loop runs down it, -1 where up.
  readonly edges: Float64Array;
  // Edges that run through each row.
  readonly rows: readonly (readonly number[])[];
  readonly first: number;
}

function listRows(loops: readonly Float64Array[], perMm: number, left: number): EdgeRows {
  const edges: number[] = [];
  let [top, foot] = [Infinity, -Infinity];
  for (const loop of loops) {
    let [x, y] = [(loop.at(-2) ?? 0) * perMm - left, (loop.at(-1) ?? 0) * perMm];
    for (let i = 0; i < loop.length; i += 2) {
      const [nextX, nextY] = [loop[i]! * perMm - left, loop[i + 1]! * perMm];
      if (nextY > y) edges.push(x, y, nextX, nextY, 1);
      if (nextY < y) edges.push(nextX, nextY, x, y, -1);
      [top, foot] = [Math.min(top, nextY), Math.max(foot, nextY)];
      [x, y] = [nextX, nextY];
    }
  }
  const first = Math.floor(top);
  const count = Math.max(0, Math.ceil(foot) - first);
  const rows = Array.from({ length: Number.isFinite(count) ? count : 0 }, (): number[] => []);
  for (let edge = 0; edge < edges.length; edge += 5) {
    const last = Math.ceil(edges[edge + 3]!);
    for (let row = Math.floor(edges[edge + 1]!); row < last; row++) rows[row - first]?.push(edge);
  }
  return { edges: Float64Array.from(edges), rows, first };
}

function addRow(
  edges: Float64Array,
  row: readonly number[],
  y: number,
  differences: Float64Array,
): { readonly from: number; readonly to: number } {
  const most = differences.length - 2;
  let [from, to] = [most, 0];
  for (const edge of row) {
    const [x0, y0, x1, y1] = [edges[edge]!, edges[edge + 1]!, edges[edge + 2]!, edges[edge + 3]!];
    const [top, foot] = [Math.max(y, y0), Math.min(y + 1, y1)];
    const slope = (x1 - x0) / (y1 - y0);
    const upper = Math.min(most, Math.max(0, x0 + (top - y0) * slope));
    const lower = Math.min(most, Math.max(0, x0 + (foot - y0) * slope));
    addEdge(differences, upper, lower, (foot - top) * edges[edge + 4]!);
    from = Math.min(from, Math.floor(Math.min(upper, lower)));
    to = Math.max(to, Math.floor(Math.max(upper, lower)) + 2);
  }
  return { from, to };
}
