import type { PerAxis } from '../../surface/measurement.js';

/** A point of an edge, in mm of paper. */
export interface FacedPoint extends PerAxis<number> {
  /** Where the edge from it to the next looks to, away from what it bounds; of length 1. */
  readonly out: PerAxis<number>;
  /** The same of the point itself: between both edges that meet there. */
  readonly between: PerAxis<number>;
  /** From it to where both edges meet, were they one mm farther out. */
  readonly mitre: PerAxis<number>;
  /** Whether they meet in a corner. */
  readonly isCorner: boolean;
}

/** A closed line, what it bounds on its right: outer ones run clockwise, holes the other way. */
export interface FacedLoop {
  /** In order; the last joins the first. */
  readonly points: readonly FacedPoint[];
  /** Whether what it bounds lies round it. */
  readonly isHole: boolean;
}

/** Closed lines, and what of them is inside. */
export interface BoundedArea {
  /** Points x, y, x, y…, the last joining the first. */
  readonly loops: readonly Float64Array[];
  /** What counts as inside. */
  readonly rule: 'nonzero' | 'evenodd';
}

// Bits of a curve turn by far less.
const corner = Math.PI / 9;
// A sharper corner's mitre is cut short.
const longestMitre = 4;
// Nearer to one another points are one, mm.
const near = 1e-6;

/**
 * Turn loops so that each has what it bounds on its right, and say where its edges look to.
 *
 * @param area - Loops that cross no other; one with the same on both its sides bounds nothing.
 * @returns Those that bound something.
 */
export function faceLoops(area: BoundedArea): readonly FacedLoop[] {
  return area.loops.flatMap((loop) => {
    const points = pointsOf(loop);
    if (points.length < 3) return [];
    const { right, left } = sidesOf(points, area);
    if (right === left) return [];
    const ordered = right ? points : points.toReversed();
    return [{ points: facePoints(ordered), isHole: areaOf(ordered) < 0 }];
  });
}

function pointsOf(loop: Float64Array): readonly PerAxis<number>[] {
  const points: PerAxis<number>[] = [];
  for (let i = 0; i < loop.length; i += 2) {
    const [x, y] = [loop[i] ?? 0, loop[i + 1] ?? 0];
    const last = points.at(-1);
    if (last === undefined || Math.hypot(x - last.x, y - last.y) > near) points.push({ x, y });
  }
  const [first, last] = [points[0], points.at(-1)];
  if (first === undefined || last === undefined) return [];
  if (points.length > 1 && Math.hypot(first.x - last.x, first.y - last.y) <= near) points.pop();
  return points;
}

function areaOf(points: readonly PerAxis<number>[]): number {
  return points.reduce((sum, { x, y }, i) => {
    const next = points[(i + 1) % points.length] ?? { x, y };
    return sum + x * next.y - next.x * y;
  }, 0);
}

// What lies beside the middle of its longest edge.
function sidesOf(
  points: readonly PerAxis<number>[],
  area: BoundedArea,
): { readonly right: boolean; readonly left: boolean } {
  let [longest, x, y, dx, dy] = [0, 0, 0, 0, 0];
  points.forEach((from, i) => {
    const to = points[(i + 1) % points.length] ?? from;
    const length = Math.hypot(to.x - from.x, to.y - from.y);
    if (length <= longest) return;
    longest = length;
    [x, y] = [(from.x + to.x) / 2, (from.y + to.y) / 2];
    [dx, dy] = [(to.x - from.x) / length, (to.y - from.y) / length];
  });
  const off = Math.max(10 * near, longest / 1000);
  return {
    right: isInside(area, x - off * dy, y + off * dx),
    left: isInside(area, x + off * dy, y - off * dx),
  };
}

function isInside({ loops, rule }: BoundedArea, x: number, y: number): boolean {
  const wound = loops.reduce((sum, loop) => sum + windsRound(loop, x, y), 0);
  return rule === 'nonzero' ? wound !== 0 : wound % 2 !== 0;
}

function windsRound(loop: Float64Array, x: number, y: number): number {
  let wound = 0;
  for (let i = 0; i < loop.length; i += 2) {
    const [ax, ay] = [loop[i]!, loop[i + 1]!];
    const [bx, by] = [loop[(i + 2) % loop.length]!, loop[(i + 3) % loop.length]!];
    const side = (bx - ax) * (y - ay) - (x - ax) * (by - ay);
    if (ay <= y && by > y && side > 0) wound++;
    if (ay > y && by <= y && side < 0) wound--;
  }
  return wound;
}

function facePoints(points: readonly PerAxis<number>[]): readonly FacedPoint[] {
  const outs = points.map((from, i) => {
    const to = points[(i + 1) % points.length] ?? from;
    const length = Math.hypot(to.x - from.x, to.y - from.y);
    return { x: (to.y - from.y) / length, y: (from.x - to.x) / length };
  });
  return points.map(({ x, y }, i) => {
    const out = outs[i] ?? { x: 0, y: -1 };
    const before = outs.at(i - 1) ?? out;
    const [sx, sy] = [before.x + out.x, before.y + out.y];
    const long = Math.hypot(sx, sy);
    const between = long > 1e-9 ? { x: sx / long, y: sy / long } : out;
    // Half the turn's cosine: how far the corner of two lines lies out.
    const reach = Math.min(longestMitre, 2 / Math.max(long, 1e-9));
    const turn = Math.acos(Math.min(1, Math.max(-1, before.x * out.x + before.y * out.y)));
    const mitre = { x: reach * between.x, y: reach * between.y };
    return { x, y, out, between, mitre, isCorner: turn > corner };
  });
}
