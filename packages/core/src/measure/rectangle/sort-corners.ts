import { outOfRange } from '../../errors/out-of-range.js';
import type { Point } from '../../units/parse-point.js';

/** Corners of a rectangle as a photo shows it. */
export type Corners = readonly [
  topLeft: Point,
  topRight: Point,
  bottomRight: Point,
  bottomLeft: Point,
];

/** Corners in order. */
export interface SortedCorners {
  /** Clockwise from the top left one. */
  readonly corners: Corners;
  /** Whether they were given so. */
  readonly given: boolean;
}

// Nearer to one another, or to a line through two others, marks of a pixel say nothing.
const least = 8;

/**
 * Put four corners in order, however they were given: clockwise from the one that is top left once
 * the rectangle is turned level by less than an eighth of a circle.
 *
 * @param points - Four, in pixels of the photo.
 * @returns The same in order.
 * @throws RangeError when there are not four, two lie close together, three lie in a line or nearly
 *   so, or one lies within the triangle of the others.
 */
export function sortCorners(points: readonly Point[]): SortedCorners {
  const got = points.map(({ x, y }) => `${x},${y}`).join(' ');
  if (points.length !== 4) throw outOfRange('four points', 'corners', got);
  const x = points.reduce((sum, point) => sum + point.x, 0) / 4;
  const y = points.reduce((sum, point) => sum + point.y, 0) / 4;
  const round = points.toSorted(
    (a, b) => Math.atan2(a.y - y, a.x - x) - Math.atan2(b.y - y, b.x - x),
  );
  if (points.some((one, i) => points.some((other, j) => i < j && far(one, other) < least))) {
    throw outOfRange(`four corners ${least} px or more from one another`, 'corners', got);
  }
  const neighbours = round.map((point, i): Neighbours => {
    const [before, after] = [round.at(i - 1) ?? point, round[(i + 1) % 4] ?? point];
    return { before, point, after };
  });
  const heights = neighbours.map(heightOver);
  for (const [i, height] of heights.entries()) {
    if (Math.abs(height) >= least) continue;
    const straight = isStraight(neighbours[i]!);
    const expected = straight
      ? 'four corners of which no three lie in a line'
      : `a rectangle of ${Math.ceil(least * Math.SQRT2)} px or more each way`;
    throw outOfRange(expected, 'corners', got);
  }
  if (heights.some((height) => height < 0)) {
    throw outOfRange('four corners of which none lies between the others', 'corners', got);
  }
  const corners = fromTopLeft(round);
  return { corners, given: corners.every((corner, i) => corner === points[i]) };
}

interface Neighbours {
  readonly before: Point;
  readonly point: Point;
  readonly after: Point;
}

function far(a: Point, b: Point): number {
  return Math.hypot(a.x - b.x, a.y - b.y);
}

// How far a point lies outside the line from one to the other of its neighbours, clockwise.
function heightOver({ before, point, after }: Neighbours): number {
  const [x, y] = [after.x - before.x, after.y - before.y];
  return ((point.x - before.x) * y - (point.y - before.y) * x) / Math.hypot(x, y);
}

// Whether the sides that meet in a corner go on, or back, within 30 degrees.
function isStraight({ before, point, after }: Neighbours): boolean {
  const [a, b] = [far(point, before), far(point, after)];
  const across = (before.x - point.x) * (after.y - point.y);
  const down = (before.y - point.y) * (after.x - point.x);
  return Math.abs(across - down) < 0.5 * a * b;
}

// Of the four, the one from which the upper side runs most to the right.
function fromTopLeft(round: readonly Point[]): Corners {
  const turns = [0, 1, 2, 3].map((start): Corners => {
    const at = (i: number): Point => round[(start + i) % 4]!;
    return [at(0), at(1), at(2), at(3)];
  });
  return turns.reduce((best, turn) => (rightness(turn) > rightness(best) ? turn : best));
}

function rightness([a, b, c, d]: Corners): number {
  const [x, y] = [b.x - a.x + c.x - d.x, b.y - a.y + c.y - d.y];
  return x / Math.hypot(x, y);
}
