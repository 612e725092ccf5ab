import { lanczosSteps, lanczosTaps, lanczosWeights } from '../numeric/lanczos-taps.js';
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

/**
 * Let bed joints that cross from one window into the other meet: both are moved a little, all of it
 * the one at the far end of the overlap and all of it the other at the near end, so that a joint runs
 * over from its place in one to that in the other.
 *
 * @param seen - The windows, and where their joints lie.
 * @param closed - Whether top meets bottom.
 * @returns The same where no bed crosses or all meet already; else copies, moved.
 */
export function alignOverlap(seen: SeenOverlap, closed: boolean): SeenOverlap {
  const { windows, ending, beginning } = seen;
  const missed = missesOf(seen, closed);
  if (missed === null) return seen;
  const { width, margin } = windows;
  const inner = width - 2 * margin;
  // Share of the way from the ending's place to the beginning's.
  const shares = Float64Array.from({ length: width }, (_, x) =>
    Math.min(1, Math.max(0, (x - margin + 0.5) / inner)),
  );
  const size = { width, height: windows.height, closed };
  const near = { ...size, moves: missed.map((miss, at) => miss * shares[at % width]!) };
  const far = { ...size, moves: missed.map((miss, at) => miss * (shares[at % width]! - 1)) };
  return {
    windows: {
      ...windows,
      ending: windows.ending.map((plane) => moveDown(plane, near)),
      beginning: windows.beginning.map((plane) => moveDown(plane, far)),
    },
    ending: { ...ending, likeness: moveDown(ending.likeness, near) },
    beginning: { ...beginning, likeness: moveDown(beginning.likeness, far) },
  };
}

// At every pixel, by how many rows the ending's joints lie below the beginning's; null for all of them none.
function missesOf(
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
  // How many rows further down each pixel is taken from.
  readonly moves: Float32Array;
  readonly closed: boolean;
}

function moveDown(plane: Float32Array, { width, height, moves, closed }: Moves): Float32Array {
  const out = new Float32Array(plane.length);
  for (let y = 0, at = 0; y < height; y++) {
    for (let x = 0; x < width; x++, at++) {
      const place = y + moves[at]!;
      const whole = Math.floor(place);
      const tap = Math.round((place - whole) * lanczosSteps) * lanczosTaps;
      if (tap === 0 && whole === y) {
        out[at] = plane[at]!;
        continue;
      }
      let sum = 0;
      for (let i = 0; i < lanczosTaps; i++) {
        const row = whole + i - 2;
        const inside = closed
          ? ((row % height) + height) % height
          : Math.min(height - 1, Math.max(0, row));
        sum += lanczosWeights[tap + i]! * plane[inside * width + x]!;
      }
      out[at] = sum;
    }
  }
  return out;
}
