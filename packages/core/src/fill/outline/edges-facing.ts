import type { PerAxis } from '../../surface/measurement.js';
import type { FillRule, OutlineBox, PartOutline } from './part-outline.js';

/** A straight piece of an outline's edge. */
export interface OutlineEdge {
  /** One end. */
  readonly from: PerAxis<number>;
  /** The other. */
  readonly to: PerAxis<number>;
}

// Every edge is held against every other. Drawn shapes come to a few hundred.
const mostEdges = 4000;
// Nothing lies on what is steeper than this many down for one along.
const steepest = 2;

// What the last digits of numbers make of edges that lie on one another.
const slack = 1e-7;

interface Segment {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

/**
 * Find the edges of an outline on which something can lie, or from which something drips: those with the
 * outline below and nothing above, or the other way round. The upper edges of a wall are its top and, under its
 * windows, their sills.
 *
 * @param outline - Of the wall, y downwards.
 * @param facing - `up`: what lies below an edge is inside; `down`: what lies above it.
 * @returns The edges, none of them steep; null where the outline has too many to tell.
 */
export function edgesFacing(
  outline: PartOutline,
  facing: 'up' | 'down',
): readonly OutlineEdge[] | null {
  const segments = segmentsOf(outline);
  if (segments.length > mostEdges) return null;
  return segments.flatMap(({ x0, y0, x1, y1 }) => {
    const across = Math.abs(x1 - x0);
    if (across === 0 || Math.abs(y1 - y0) > steepest * across) return [];
    const above = crossAbove(segments, (x0 + x1) / 2, (y0 + y1) / 2);
    const isAbove = counts(above.before, outline.rule);
    const isBelow = counts(above.before + above.at, outline.rule);
    const isWanted = facing === 'up' ? isBelow && !isAbove : isAbove && !isBelow;
    return isWanted ? [{ from: { x: x0, y: y0 }, to: { x: x1, y: y1 } }] : [];
  });
}

// Farther than any wall is long.
const far = 1e6;

/**
 * Let level edges that end at the sides of a part go on past them, for the part may be cut from a wall that does.
 *
 * @param edges - Of the part.
 * @param sides - Where it begins and ends.
 * @returns The edges.
 */
export function pastSides(
  edges: readonly OutlineEdge[],
  sides: Pick<OutlineBox, 'x0' | 'x1'>,
): readonly OutlineEdge[] {
  const { x0, x1 } = sides;
  const end = ({ x, y }: PerAxis<number>): PerAxis<number> => ({
    x: x <= x0 + slack ? x0 - far : x >= x1 - slack ? x1 + far : x,
    y,
  });
  return edges.map((edge) => {
    const { from, to } = edge;
    return Math.abs(from.y - to.y) > slack ? edge : { from: end(from), to: end(to) };
  });
}

/**
 * Tell whether a point lies inside an outline.
 *
 * @param outline - Its loops and their rule.
 * @param point - In its units.
 * @returns Whether it does.
 */
export function isInside(outline: PartOutline, point: PerAxis<number>): boolean {
  return counts(crossAbove(segmentsOf(outline), point.x, point.y).before, outline.rule);
}

function segmentsOf({ loops }: PartOutline): readonly Segment[] {
  return loops.flatMap((loop) => {
    const count = loop.length / 2;
    return Array.from({ length: count }, (_, i) => {
      const next = (i + 1) % count;
      return {
        x0: loop[2 * i]!,
        y0: loop[2 * i + 1]!,
        x1: loop[2 * next]!,
        y1: loop[2 * next + 1]!,
      };
    });
  });
}

// How often lines cross the plumb line above a point, one way more than the other, and how often there.
function crossAbove(
  segments: readonly Segment[],
  x: number,
  y: number,
): { readonly before: number; readonly at: number } {
  let [before, at] = [0, 0];
  for (const { x0, y0, x1, y1 } of segments) {
    if (x0 <= x === x1 <= x) continue;
    const off = y0 + ((x - x0) / (x1 - x0)) * (y1 - y0) - y;
    const way = x1 > x0 ? 1 : -1;
    if (Math.abs(off) < slack) at += way;
    else if (off < 0) before += way;
  }
  return { before, at };
}

function counts(crossings: number, rule: FillRule): boolean {
  return rule === 'evenodd' ? crossings % 2 !== 0 : crossings !== 0;
}
