import type { LeftOut } from '../../surface/found-joints.js';
import { toLevelPoint } from '../../surface/level-point.js';
import type { Point } from '../../units/parse-point.js';
import { coverCells } from './cover-cells.js';
import type { SeenWall } from '../seen-wall.js';
import type { Size } from '../../units/parse-size.js';

/** A line this far from its joint's place is another line, as a fraction of a course. */
const off = 0.12;
/** A line this much weaker than the joints usually are is none. */
const faint = 0.3;
/** A joint nearer to the edge of the photo does not show whole, as a fraction of a course. */
const edge = 0.15;
/** Where so many joints are missing all over, it is the wall that hardly shows them. */
const mostMissing = 0.35;
/** Of the cells about one that is left out, so many miss their joint: in a square, and in a row. */
const leastOfSquare = 0.7;
const leastOfRow = 0.85;
/** So few cells may be missing by chance, or are too small a part of a fine wall to be worth a word. */
const fewCells = 9;
const leastPart = 0.003;
/** So much of what is about a cell must lie in the photo for it to be judged. */
const leastKnown = 0.45;
/** More photo than this above the first joint or below the last, in courses, is left out. */
const mostOver = 1.5;

/** Whether each joint shows in each stretch across; stretches from the left, joints top down. */
interface JointGrid {
  readonly stretches: number;
  readonly joints: number;
  /** `stretches * joints` cells, joints fastest: 1 missing, 0 there, -1 not in the photo. */
  readonly cells: Int8Array;
}

/**
 * Find what a wall's joints leave out: windows, pipes, growth, and what lies above the first joint
 * or below the last.
 *
 * @param seen - The wall.
 * @param photo - How large the photo is, of which perhaps only the middle was looked at.
 * @returns Few rectangles, in pixels of the picture that was looked at; none of a clean wall.
 */
export function findLeftOut(seen: SeenWall, photo: Size<number>): LeftOut[] {
  return [...findInside(seen), ...findBeyond(seen, photo)];
}

function findInside(seen: SeenWall): LeftOut[] {
  const { track, raster } = seen;
  const { course, joints } = track.placed;
  const grid = toGrid(seen);
  const known = grid.cells.filter((cell) => cell >= 0);
  const missing = known.filter((cell) => cell > 0).length / Math.max(1, known.length);
  if (missing > mostMissing) return [];
  const wide = raster.width / grid.stretches;
  const marked = markMissing(grid);
  const { stretches: columns, joints: rows } = grid;
  const few = Math.max(fewCells, leastPart * columns * rows);
  return coverCells({ columns, rows, marked }, few).map(({ left, right, top, foot }) => {
    const from = (joints[top] ?? 0) - course / 2;
    const to = (joints[foot - 1] ?? 0) + course / 2;
    return { x: left * wide, y: from, width: (right - left) * wide, height: to - from };
  });
}

function toGrid({ track, raster, shown }: SeenWall): JointGrid {
  const { points, joints, course, slope } = track.placed;
  const { k, x, y, weight } = points;
  const { width } = raster;
  const stretches = k.length / joints.length;
  const cells = new Int8Array(k.length);
  for (let s = 0; s < stretches; s++) {
    const [left, right] = [Math.ceil((s * width) / stretches), ((s + 1) * width) / stretches];
    let [from, to] = [0, raster.height];
    for (let column = left; column < right; column++) {
      from = Math.max(from, shown.from[column]!);
      to = Math.min(to, shown.to[column]!);
    }
    for (let i = s * joints.length; i < (s + 1) * joints.length; i++) {
      const at = joints[k[i]!]! + slope * (x[i]! - width / 2);
      const stray = Math.abs(y[i]! - at) > Math.max(off * course, 0.8);
      const inside = at > from + edge * course && at < to - edge * course;
      cells[i] = inside ? (weight[i]! < faint || stray ? 1 : 0) : -1;
    }
  }
  return { stretches, joints: joints.length, cells };
}

// A cell is left out where most of those about it are missing: all round, or in a row or column,
// for a pipe may be no wider than one.
function markMissing(grid: JointGrid): Uint8Array {
  const marked = new Uint8Array(grid.cells.length);
  const windows = [
    { across: 1, down: 1, least: leastOfSquare },
    { across: 0, down: 4, least: leastOfRow },
  ];
  for (const { across, down, least } of windows) {
    for (let s = 0; s < grid.stretches; s++) {
      for (let k = 0; k < grid.joints; k++) {
        if (shareMissing(grid, { s, k, across, down }) >= least) marked[s * grid.joints + k] = 1;
      }
    }
  }
  return marked;
}

interface Around {
  readonly s: number;
  readonly k: number;
  readonly across: number;
  readonly down: number;
}

function shareMissing(grid: JointGrid, { s, k, across, down }: Around): number {
  const { stretches, joints, cells } = grid;
  let missing = 0;
  let known = 0;
  for (let i = Math.max(0, s - across); i <= Math.min(stretches - 1, s + across); i++) {
    for (let j = Math.max(0, k - down); j <= Math.min(joints - 1, k + down); j++) {
      const cell = cells[i * joints + j]!;
      if (cell < 0) continue;
      known++;
      missing += cell;
    }
  }
  return known > (2 * across + 1) * (2 * down + 1) * leastKnown ? missing / known : 0;
}

function findBeyond(
  { track, step, left, top, rectification }: SeenWall,
  photo: Size<number>,
): LeftOut[] {
  const { joints, course } = track.placed;
  const [first, last] = [joints[0] ?? 0, joints.at(-1) ?? 0];
  const { width, height } = photo;
  const place = (x: number, y: number): Point => {
    const at = rectification === null ? { x, y } : toLevelPoint(rectification, photo, { x, y });
    return { x: at.x / step - left, y: at.y / step - top };
  };
  const across = Array.from({ length: 17 }, (_, i) => (i * width) / 16);
  const [above, below] = [across.map((x) => place(x, 0)), across.map((x) => place(x, height))];
  const xs = [...above, ...below].map(({ x }) => x);
  const x = Math.min(...xs);
  const wide = Math.max(...xs) - x;
  const isOver = (rows: readonly number[]): boolean =>
    rows.filter((over) => over > mostOver * course).length > rows.length / 2;
  const parts: LeftOut[] = [];
  if (isOver(above.map(({ y }) => first - y))) {
    const y = Math.min(...above.map((point) => point.y));
    parts.push({ x, y, width: wide, height: first - y });
  }
  if (isOver(below.map(({ y }) => y - last))) {
    const foot = Math.max(...below.map((point) => point.y));
    parts.push({ x, y: last, width: wide, height: foot - last });
  }
  return parts;
}
