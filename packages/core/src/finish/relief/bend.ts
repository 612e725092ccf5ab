import type { PerAxis } from '../../surface/measurement.js';
import type { Reach } from './relief-strip.js';

/** A line to bend a piece along, as a drawing gives it. */
export interface BentLine {
  /** Points x, y, x, y…, mm of paper, close enough together that it is straight between two. */
  readonly points: Float64Array;
  /** Whether its end is its beginning. */
  readonly isClosed: boolean;
}

/** A place of a bend. */
export interface BendPlace {
  /** How far along it, mm of paper. */
  readonly at: number;
  /** Where it lies. */
  readonly x: number;
  /** Down. */
  readonly y: number;
  /** From the top of the piece to its foot, of length 1. */
  readonly down: PerAxis<number>;
}

/** What a piece is bent along: the middle of its depth. */
export interface Bend {
  /** From its left end on, in order; closed, the last lies where the first does. */
  readonly places: readonly BendPlace[];
  /** From end to end. */
  readonly length: number;
  /** Whether its end is its beginning. */
  readonly isClosed: boolean;
  /** Radius where it bends most, mm; Infinity where it is straight. */
  readonly tightest: number;
  /** The sharpest corner between two straight bits of it, in radians. */
  readonly sharpest: number;
}

// Shorter bits are digits of numbers.
const least = 1e-6;

/**
 * Make a bend of a line: from left to right where it is open, clockwise where it is closed, so that the top
 * of the piece is up, or outside.
 *
 * @param line - As drawn.
 * @returns The bend; of no length where the line has none.
 */
export function toBend(line: BentLine): Bend {
  const points = inOrder(apart(line), line.isClosed);
  const turns = directionsOf(points);
  const count = turns.length;
  const { isClosed } = line;
  let [at, tightest, sharpest] = [0, Infinity, 0];
  const places = points.map(({ x, y }, i): BendPlace => {
    const before = turns[i - 1] ?? (isClosed ? turns[count - 1] : turns[0]);
    const after = turns[i] ?? (isClosed ? turns[0] : turns[count - 1]);
    if (before === undefined || after === undefined) return { at, x, y, down: { x: 0, y: 1 } };
    if (i > 0) at += before.length;
    const turned = Math.abs(
      Math.atan2(before.x * after.y - before.y * after.x, before.x * after.x + before.y * after.y),
    );
    sharpest = Math.max(sharpest, turned);
    if (turned > 0) tightest = Math.min(tightest, (before.length + after.length) / 2 / turned);
    const [dx, dy] = [before.x + after.x, before.y + after.y];
    const long = Math.hypot(dx, dy) || 1;
    return { at, x, y, down: { x: -dy / long, y: dx / long } };
  });
  return { places, length: at, isClosed, tightest, sharpest };
}

/**
 * Take the places of a stretch of a bend.
 *
 * @param bend - All of it.
 * @param reach - From end to end; what is past an open bend's ends goes straight on.
 * @returns Places from one end to the other.
 */
export function placesOf(bend: Bend, reach: Reach): readonly BendPlace[] {
  const { x0, x1 } = reach;
  const { places, length, isClosed } = bend;
  const [from, to] = isClosed ? [Math.max(0, x0), Math.min(length, x1)] : [x0, x1];
  const between = places.filter(({ at }) => at > from + least && at < to - least);
  return [placeAt(bend, from), ...between, placeAt(bend, to)];
}

/**
 * Find where on the page a stretch of a bend has come to.
 *
 * @param bend - All of it.
 * @param at - How far along it, mm.
 * @returns Where that is; past an end of it straight on.
 */
export function placeAt(bend: Bend, at: number): BendPlace {
  const { places } = bend;
  let [low, high] = [0, Math.max(1, places.length - 1)];
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if ((places[middle]?.at ?? Infinity) > at) high = middle;
    else low = middle;
  }
  const [one, other] = [places[low], places[high]];
  if (one === undefined) throw new Error('a bend without places');
  if (other === undefined) return { ...one, at };
  // Past an end it goes straight on, as the end does.
  const end = at < one.at ? one : at > other.at ? other : null;
  if (end !== null) {
    const past = at - end.at;
    return { ...end, at, x: end.x + past * end.down.y, y: end.y - past * end.down.x };
  }
  const share = (at - one.at) / (other.at - one.at);
  const mix = (a: number, b: number): number => a + share * (b - a);
  const down = { x: mix(one.down.x, other.down.x), y: mix(one.down.y, other.down.y) };
  const long = Math.hypot(down.x, down.y) || 1;
  return {
    at,
    x: mix(one.x, other.x),
    y: mix(one.y, other.y),
    down: { x: down.x / long, y: down.y / long },
  };
}

function apart({ points, isClosed }: BentLine): readonly PerAxis<number>[] {
  const found: PerAxis<number>[] = [];
  const add = (x: number, y: number): void => {
    const last = found.at(-1);
    if (last === undefined || Math.hypot(x - last.x, y - last.y) > least) found.push({ x, y });
  };
  for (let i = 0; i < points.length; i += 2) add(points[i] ?? 0, points[i + 1] ?? 0);
  const [first] = found;
  if (first === undefined || !isClosed) return found;
  add(first.x, first.y);
  return [...found.slice(0, -1), first];
}

function inOrder(
  points: readonly PerAxis<number>[],
  isClosed: boolean,
): readonly PerAxis<number>[] {
  const [first, last] = [points[0], points.at(-1)];
  if (first === undefined || last === undefined) return points;
  const twice = points.reduce((sum, { x, y }, i) => {
    const next = points[i + 1] ?? first;
    return sum + x * next.y - next.x * y;
  }, 0);
  // Upright, from its foot up.
  const isBackwards = isClosed
    ? twice < 0
    : last.x < first.x - least || (Math.abs(last.x - first.x) <= least && last.y > first.y);
  return isBackwards ? points.toReversed() : points;
}

interface Direction extends PerAxis<number> {
  readonly length: number;
}

function directionsOf(points: readonly PerAxis<number>[]): readonly Direction[] {
  return points.slice(1).map(({ x, y }, i) => {
    const from = points[i] ?? { x, y };
    const length = Math.hypot(x - from.x, y - from.y);
    return { x: (x - from.x) / length, y: (y - from.y) / length, length };
  });
}
