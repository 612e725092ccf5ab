import { lanczosSteps, lanczosTaps, lanczosWeights } from '../../numeric/lanczos-taps.js';
import type { Overlap } from './overlap.js';
import type { BedCrossings, SeenJoints } from './see-joints.js';

/** Two windows on one picture, and the joints in both. */
export interface SeenOverlap {
  /** The windows. */
  readonly windows: Overlap;
  /** Joints in what follows the tile's end. */
  readonly ending: SeenJoints;
  /** Joints in its beginning. */
  readonly beginning: SeenJoints;
}

// Pixels by which joints may miss one another: nobody sees it, and what is moved loses a little grain.
const unseen = 0.12;

// Joints are stretched over an overlap by this share of it at most, and no joint is taken for its
// neighbour: they miss one another by this share of the way to it.
const mostStretch = 0.4;
const mostMissed = 0.3;

/**
 * Let joints that cross from one window into the other, and those in which a cut may run, meet: both
 * are moved a little, all of it the one at the far end of the overlap and all of it the other at the
 * near end, so that a joint runs over from its place in one to that in the other.
 *
 * @param seen - The windows, and where their joints lie.
 * @param closed - Whether top meets bottom.
 * @returns The same where all joints meet already; else copies, moved.
 */
export function alignOverlap(seen: SeenOverlap, closed: boolean): SeenOverlap {
  const down = missesDown(seen, closed);
  const level =
    down === null ? seen : moved(seen, down, (plane, moves) => moveDown(plane, moves, closed));
  const across = missesAcross(level);
  return across === null ? level : moved(level, across, moveAcross);
}

type Move = (plane: Float32Array, moves: Moves) => Float32Array;

function moved(seen: SeenOverlap, missed: Float32Array, move: Move): SeenOverlap {
  const { windows, ending, beginning } = seen;
  const { width, margin } = windows;
  const inner = width - 2 * margin;
  // Share of the way from the ending's place to the beginning's.
  const shares = Float64Array.from({ length: width }, (_, x) =>
    Math.min(1, Math.max(0, (x - margin + 0.5) / inner)),
  );
  const size = { width, height: windows.height };
  const near = { ...size, moves: missed.map((miss, at) => miss * shares[at % width]!) };
  const far = { ...size, moves: missed.map((miss, at) => miss * (shares[at % width]! - 1)) };
  return {
    windows: {
      ...windows,
      ending: windows.ending.map((plane) => move(plane, near)),
      beginning: windows.beginning.map((plane) => move(plane, far)),
    },
    ending: { ...ending, likeness: move(ending.likeness, near) },
    beginning: { ...beginning, likeness: move(beginning.likeness, far) },
  };
}

// At every pixel, by how many columns the ending's joints lie right of the beginning's; null where all
// meet.
function missesAcross({ windows, ending, beginning }: SeenOverlap): Float32Array | null {
  const { width, height, margin } = windows;
  const most = mostStretch * (width - 2 * margin);
  const out = new Float32Array(width * height);
  let largest = 0;
  for (let y = 0; y < height; y++) {
    const pairs = pairAlong(ending.marks[y]!, beginning.marks[y]!, most);
    for (const { miss } of pairs) largest = Math.max(largest, Math.abs(miss));
    spreadAlong(out.subarray(y * width, (y + 1) * width), pairs);
  }
  return largest < unseen ? null : out;
}

interface MarkPair {
  readonly at: number;
  readonly miss: number;
}

// Each joint of one with the nearest of the other, where that is nearer than any could be by mistake.
function pairAlong(ones: Float64Array, others: Float64Array, most: number): MarkPair[] {
  const pairs: MarkPair[] = [];
  let next = 0;
  for (const [i, one] of ones.entries()) {
    while (
      next + 1 < others.length &&
      Math.abs(others[next + 1]! - one) < Math.abs(others[next]! - one)
    )
      next++;
    const other = others[next];
    if (other === undefined) break;
    const room = Math.min(gapAt(ones, i), gapAt(others, next));
    const miss = one - other;
    if (Math.abs(miss) <= Math.min(most, mostMissed * room))
      pairs.push({ at: (one + other) / 2, miss });
  }
  return pairs;
}

function gapAt(places: Float64Array, i: number): number {
  const before = i > 0 ? places[i]! - places[i - 1]! : Infinity;
  const after = i + 1 < places.length ? places[i + 1]! - places[i]! : Infinity;
  return Math.min(before, after);
}

// Straight from joint to joint; past the first and the last as there.
function spreadAlong(row: Float32Array, pairs: readonly MarkPair[]): void {
  if (pairs.length === 0) return;
  let pair = 0;
  for (let x = 0; x < row.length; x++) {
    while (pair + 1 < pairs.length && pairs[pair + 1]!.at <= x + 0.5) pair++;
    const here = pairs[pair]!;
    const next = pairs[pair + 1];
    const share = next === undefined ? 0 : Math.max(0, (x + 0.5 - here.at) / (next.at - here.at));
    row[x] = here.miss + (next === undefined ? 0 : share * (next.miss - here.miss));
  }
}

// At every pixel, by how many rows the ending's joints lie below the beginning's; null for all of them none.
function missesDown(
  { windows, ending, beginning }: SeenOverlap,
  closed: boolean,
): Float32Array | null {
  const { width, height } = windows;
  const pairs = pairUp(ending.crossing, beginning.crossing);
  if (pairs.length === 0) return null;
  const out = new Float32Array(width * height);
  let most = 0;
  for (let x = 0; x < width; x++) {
    const rows = pairs.map((pair) => pair.row(x));
    const misses = pairs.map((pair) => pair.miss(x));
    for (const miss of misses) most = Math.max(most, Math.abs(miss));
    spread(out, { x, width, height, rows, misses, closed });
  }
  return most < unseen ? null : out;
}

interface BedPair {
  readonly row: (column: number) => number;
  readonly miss: (column: number) => number;
}

function pairUp(one: BedCrossings | null, other: BedCrossings | null): BedPair[] {
  if (one === null || other === null) return [];
  const first = Math.max(one.first, other.first);
  const end = Math.min(one.first + one.count, other.first + other.count);
  return Array.from({ length: Math.max(0, end - first) }, (_, i) => {
    const here = (column: number): number => one.at(first + i - one.first, column);
    const there = (column: number): number => other.at(first + i - other.first, column);
    return {
      row: (column) => (here(column) + there(column)) / 2,
      miss: (column) => here(column) - there(column),
    };
  });
}

interface ColumnOfBeds {
  readonly x: number;
  readonly width: number;
  readonly height: number;
  readonly rows: readonly number[];
  readonly misses: readonly number[];
  readonly closed: boolean;
}

// Straight from bed to bed; past the first and the last as there, or round to the other.
function spread(out: Float32Array, column: ColumnOfBeds): void {
  const { x, width, height, closed } = column;
  const last = column.rows.length - 1;
  const [top, foot] = [column.rows[0]!, column.rows[last]!];
  const rows = [foot - height, ...column.rows, top + height];
  const misses = [
    closed ? column.misses[last]! : column.misses[0]!,
    ...column.misses,
    closed ? column.misses[0]! : column.misses[last]!,
  ];
  let bed = 0;
  for (let y = 0; y < height; y++) {
    while (bed + 2 < rows.length && y + 0.5 > rows[bed + 1]!) bed++;
    const apart = rows[bed + 1]! - rows[bed]!;
    const share = apart > 0 ? Math.min(1, Math.max(0, (y + 0.5 - rows[bed]!) / apart)) : 0;
    out[y * width + x] = misses[bed]! + share * (misses[bed + 1]! - misses[bed]!);
  }
}

interface Moves {
  readonly width: number;
  readonly height: number;
  // How much further down or right each pixel is taken from.
  readonly moves: Float32Array;
}

function moveDown(
  plane: Float32Array,
  { width, height, moves }: Moves,
  closed: boolean,
): Float32Array {
  const out = new Float32Array(plane.length);
  const last = plane.length - 3 * width;
  for (let y = 0, at = 0; y < height; y++) {
    for (let x = 0; x < width; x++, at++) {
      const place = y + moves[at]!;
      const whole = Math.floor(place);
      const tap = Math.round((place - whole) * lanczosSteps) * lanczosTaps;
      const from = whole * width + x;
      if (tap === 0 && whole === y) out[at] = plane[at]!;
      else if (from >= 2 * width && from < last) out[at] = weighed(plane, tap, from, width);
      else out[at] = weighedAtEnd(plane, tap, { first: whole, line: x, width, height, closed });
    }
  }
  return out;
}

// The taps written out, where all of them lie inside: a loop takes four times as long.
function weighed(plane: Float32Array, tap: number, from: number, step: number): number {
  return (
    lanczosWeights[tap]! * plane[from - 2 * step]! +
    lanczosWeights[tap + 1]! * plane[from - step]! +
    lanczosWeights[tap + 2]! * plane[from]! +
    lanczosWeights[tap + 3]! * plane[from + step]! +
    lanczosWeights[tap + 4]! * plane[from + 2 * step]! +
    lanczosWeights[tap + 5]! * plane[from + 3 * step]!
  );
}

function weighedAtEnd(
  plane: Float32Array,
  tap: number,
  column: {
    readonly first: number;
    readonly line: number;
    readonly width: number;
    readonly height: number;
    readonly closed: boolean;
  },
): number {
  const { first, line, width, height, closed } = column;
  let sum = 0;
  for (let i = 0; i < lanczosTaps; i++) {
    const row = first + i - 2;
    const inside = closed
      ? ((row % height) + height) % height
      : Math.min(height - 1, Math.max(0, row));
    sum += lanczosWeights[tap + i]! * plane[inside * width + line]!;
  }
  return sum;
}

function moveAcross(plane: Float32Array, { width, moves }: Moves): Float32Array {
  const out = new Float32Array(plane.length);
  for (let row = 0; row < plane.length; row += width) {
    for (let x = 0; x < width; x++) {
      const place = x + moves[row + x]!;
      const whole = Math.floor(place);
      const tap = Math.round((place - whole) * lanczosSteps) * lanczosTaps;
      if (tap === 0 && whole === x) {
        out[row + x] = plane[row + x]!;
        continue;
      }
      if (whole >= 2 && whole + 3 < width) {
        out[row + x] = weighed(plane, tap, row + whole, 1);
        continue;
      }
      let sum = 0;
      for (let i = 0; i < lanczosTaps; i++) {
        const column = Math.min(width - 1, Math.max(0, whole + i - 2));
        sum += lanczosWeights[tap + i]! * plane[row + column]!;
      }
      out[row + x] = sum;
    }
  }
  return out;
}
