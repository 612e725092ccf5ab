import { shorterWay } from '../../numeric/shorter-way.js';
import type { Random } from './create-random.js';
import type { Piece } from './split-courses.js';
import { weighOddness } from './weigh-oddness.js';

/** Courses of a tile that are to be filled with pieces of any length. */
export interface RowPlan {
  /** What there is. */
  readonly pieces: readonly Piece[];
  /** Columns of the tile. */
  readonly width: number;
  /** Its courses. */
  readonly courses: number;
  /** Height of one, in pixels. */
  readonly course: number;
}

/** A piece in its place. */
export interface LaidPiece {
  /** Which. */
  readonly piece: Piece;
  /** Column of its left perpend; it may lie past the tile's end, and comes in at the other. */
  readonly left: number;
  /** Column of its right perpend. */
  readonly right: number;
}

// What speaks against a piece: that its photo has the same neighbour, that it lies near, that a perpend
// stands on another, that it catches the eye, and chance.
const verbatim = 3;
const nearby = 4;
const often = 1;
const stacked = 3;
const striking = 1.5;
const luck = 1.2;
// So many are weighed for each place.
const mostWeighed = 40;
// A course may be stretched by so much to close, as a fraction; and rows are begun so often.
const mostStretch = 0.025;
const attempts = 6;

/**
 * Fill every course of a tile with whole pieces, so that it closes on itself.
 *
 * @param plan - Pieces and tile.
 * @param random - Decides.
 * @returns Course by course, from left to right; null where a course cannot be closed.
 */
export function layRows(plan: RowPlan, random: Random): (readonly LaidPiece[])[] | null {
  const odd = weighOddness(plan.pieces);
  const state: State = {
    ...plan,
    rows: [],
    uses: new Map(),
    spread: spreadOf(plan.pieces),
    oddness: new Map(plan.pieces.map((piece, i) => [piece, odd[i]!])),
  };
  for (let row = 0; row < plan.courses; row++) {
    const laid = layRow(state, row, random);
    if (laid === null) return null;
    for (const { piece, left } of laid) {
      const used = state.uses.get(piece);
      if (used === undefined) state.uses.set(piece, [{ left, row }]);
      else used.push({ left, row });
    }
    state.rows.push(laid);
  }
  return state.rows;
}

interface State extends RowPlan {
  readonly rows: (readonly LaidPiece[])[];
  readonly uses: Map<Piece, { readonly left: number; readonly row: number }[]>;
  readonly spread: number;
  readonly oddness: ReadonlyMap<Piece, number>;
}

function layRow(state: State, row: number, random: Random): LaidPiece[] | null {
  const { width } = state;
  let best: LaidPiece[] | null = null;
  let least = mostStretch * width;
  for (let attempt = 0; attempt < attempts; attempt++) {
    const laid = fillRow(state, row, random);
    const end = laid.at(-1)?.right ?? 0;
    const off = Math.abs(end - (laid[0]?.left ?? 0) - width);
    if (off < least) [best, least] = [laid, off];
    // A third of a per cent nobody sees.
    if (off < width / 300) break;
  }
  return best === null ? null : stretched(best, width);
}

function fillRow(state: State, row: number, random: Random): LaidPiece[] {
  const { width, pieces, course } = state;
  const start = random() * width;
  const laid: LaidPiece[] = [];
  let left = start;
  const mean = pieces.reduce((sum, one) => sum + lengthOf(one), 0) / pieces.length;
  while (start + width - left > 0.5 * mean) {
    const rest = start + width - left;
    // Near the end a piece must close the course, or leave room for another that can.
    const closes = rest < 2.2 * mean;
    let best: Piece | null = null;
    let cheapest = Infinity;
    const weighed = closes ? pieces.length : Math.min(mostWeighed, pieces.length);
    const first = Math.floor(random() * pieces.length);
    for (let i = 0; i < weighed; i++) {
      const piece = pieces[(first + i) % pieces.length]!;
      const length = lengthOf(piece);
      const over = Math.abs(rest - length) / course;
      const room = rest - length > 0.6 * mean;
      const ends = closes && !(room && rest > 1.4 * mean) ? 6 * over : 0;
      const cost = ends + costOf(state, { laid, row, left }, piece) + luck * random();
      if (cost < cheapest) [best, cheapest] = [piece, cost];
    }
    if (best === null) break;
    const right = left + lengthOf(best);
    laid.push({ piece: best, left, right });
    left = right;
  }
  return laid;
}

function stretched(laid: readonly LaidPiece[], width: number): LaidPiece[] {
  const start = laid[0]?.left ?? 0;
  const scale = width / ((laid.at(-1)?.right ?? start + width) - start);
  return laid.map(({ piece, left, right }) => ({
    piece,
    left: start + (left - start) * scale,
    right: start + (right - start) * scale,
  }));
}

function lengthOf({ left, right }: Piece): number {
  return right - left;
}

interface Next {
  readonly laid: readonly LaidPiece[];
  readonly row: number;
  readonly left: number;
}

function costOf(state: State, { laid, row, left }: Next, piece: Piece): number {
  const { rows, courses, spread } = state;
  const before = laid.at(-1)?.piece;
  let cost = crowding(state, { row, left }, piece) + striking * (state.oddness.get(piece) ?? 0);
  if (before !== undefined) {
    cost += unlike(before.mortar, 1, piece.mortar, 0) / spread;
    const same = before.source === piece.source && before.course === piece.course;
    if (before === piece) cost += 4 * verbatim;
    else if (same && Math.abs(before.right - piece.left) < 1) cost += verbatim;
  }
  const right = left + lengthOf(piece);
  const above = rows[row - 1];
  if (above !== undefined) cost += standing(state, above, right);
  if (row + 1 === courses && rows[0] !== undefined) cost += standing(state, rows[0], right);
  return cost;
}

// A perpend that stands on another is no bond.
function standing({ width, course }: State, row: readonly LaidPiece[], x: number): number {
  const reach = 0.45 * course;
  let cost = 0;
  for (const { right } of row) {
    const off = Math.abs(shorterWay(right - x, width));
    if (off < reach) cost = Math.max(cost, stacked * (1 - off / reach));
  }
  return cost;
}

function crowding(
  { uses, width, courses, course, pieces }: State,
  { row, left }: { readonly row: number; readonly left: number },
  piece: Piece,
): number {
  const used = uses.get(piece);
  if (used === undefined) return 0;
  const far = 0.6 * Math.sqrt(pieces.length);
  let cost = often * (used.length / (1 + row)) * Math.sqrt(pieces.length) * 0.3;
  for (const use of used) {
    const across = Math.abs(shorterWay(use.left - left, width)) / (3 * course);
    const y = Math.abs(use.row - row);
    const down = Math.min(y, courses - y) / 2;
    const away = Math.sqrt(across * across + down * down);
    if (away < far) cost += nearby * (1 - away / far);
  }
  return cost;
}

function unlike(one: Float64Array, side: number, other: Float64Array, facing: number): number {
  let sum = 0;
  for (let channel = 0; channel < 3; channel++) {
    sum += (one[3 * side + channel]! - other[3 * facing + channel]!) ** 2;
  }
  return sum / 3;
}

function spreadOf(pieces: readonly Piece[]): number {
  let [sum, squares, count] = [0, 0, 1e-9];
  for (const { mortar } of pieces) {
    for (let i = 1; i < 6; i += 3) {
      sum += mortar[i]!;
      squares += mortar[i]! ** 2;
      count++;
    }
  }
  return Math.max(1e-5, squares / count - (sum / count) ** 2);
}
