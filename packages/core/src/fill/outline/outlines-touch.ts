import { boxOfLoops, type OutlineBox, type PartOutline } from './part-outline.js';
import { isInside } from './edges-facing.js';

/** What is looked at: an outline, or lines. */
export interface TouchingOutline extends PartOutline {
  /** Whether its loops are lines that enclose nothing, their ends not joined; false unless told. */
  readonly isOpen?: boolean;
}

/**
 * Tell whether two outlines touch: whether edges of theirs come near each other, or one lies within the other.
 *
 * @param a - One; what it encloses is looked at, not the box around it.
 * @param b - The other, in the same units.
 * @param near - How far apart edges may be that touch.
 * @returns Whether they do.
 */
export function outlinesTouch(a: TouchingOutline, b: TouchingOutline, near: number): boolean {
  const both = overlap(grow(boxOfLoops(a.loops), near), grow(boxOfLoops(b.loops), near));
  if (both === null) return false;
  const others = edgesIn(b, both);
  if (edgesIn(a, both).some((edge) => others.some((other) => apartBy(edge, other) <= near))) {
    return true;
  }
  return holdsFirst(a, b) || holdsFirst(b, a);
}

// No edges meet: if one point of it lies inside, all of that loop does.
function holdsFirst(outer: TouchingOutline, inner: PartOutline): boolean {
  if (outer.isOpen === true) return false;
  return inner.loops.some(
    (loop) => loop.length >= 2 && isInside(outer, { x: loop[0]!, y: loop[1]! }),
  );
}

function grow({ x0, y0, x1, y1 }: OutlineBox, by: number): OutlineBox {
  return { x0: x0 - by, y0: y0 - by, x1: x1 + by, y1: y1 + by };
}

function overlap(a: OutlineBox, b: OutlineBox): OutlineBox | null {
  const box = {
    x0: Math.max(a.x0, b.x0),
    y0: Math.max(a.y0, b.y0),
    x1: Math.min(a.x1, b.x1),
    y1: Math.min(a.y1, b.y1),
  };
  return box.x0 <= box.x1 && box.y0 <= box.y1 ? box : null;
}

// From its first point to its second.
type Edge = readonly [x0: number, y0: number, x1: number, y1: number];

function edgesIn(
  { loops, isOpen = false }: TouchingOutline,
  { x0, y0, x1, y1 }: OutlineBox,
): readonly Edge[] {
  const edges: Edge[] = [];
  for (const loop of loops) {
    const end = isOpen ? loop.length - 2 : loop.length;
    for (let i = 0; i < end; i += 2) {
      const next = (i + 2) % loop.length;
      const edge = [loop[i]!, loop[i + 1]!, loop[next]!, loop[next + 1]!] as const;
      const [ax, ay, bx, by] = edge;
      const isAside = Math.max(ax, bx) < x0 || Math.min(ax, bx) > x1;
      if (!isAside && Math.max(ay, by) >= y0 && Math.min(ay, by) <= y1) edges.push(edge);
    }
  }
  return edges;
}

function apartBy(a: Edge, b: Edge): number {
  if (cross(a, b)) return 0;
  const [ax, ay, bx, by] = a;
  const [cx, cy, dx, dy] = b;
  return Math.min(
    Math.min(offEdge(ax, ay, b), offEdge(bx, by, b)),
    Math.min(offEdge(cx, cy, a), offEdge(dx, dy, a)),
  );
}

// Each has its ends on either side of the other.
function cross(a: Edge, b: Edge): boolean {
  const [ax, ay, bx, by] = a;
  const [cx, cy, dx, dy] = b;
  return sideOf(cx, cy, a) * sideOf(dx, dy, a) < 0 && sideOf(ax, ay, b) * sideOf(bx, by, b) < 0;
}

function sideOf(x: number, y: number, [x0, y0, x1, y1]: Edge): number {
  return (x1 - x0) * (y - y0) - (y1 - y0) * (x - x0);
}

function offEdge(x: number, y: number, [x0, y0, x1, y1]: Edge): number {
  const [dx, dy] = [x1 - x0, y1 - y0] as const;
  const length = dx * dx + dy * dy;
  const along = length === 0 ? 0 : ((x - x0) * dx + (y - y0) * dy) / length;
  const t = Math.min(1, Math.max(0, along));
  return Math.hypot(x - x0 - t * dx, y - y0 - t * dy);
}
