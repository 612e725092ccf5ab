import type { PerAxis } from '../../surface/measurement.js';
import type { Stretch } from './profiles/profile.js';
import type { Reach } from './relief-strip.js';

/** An upright rectangle. */
export interface Box extends Reach, Stretch {}

// Nearer sides are one.
const near = 1e-6;

/**
 * Join rectangles that touch or overlap.
 *
 * @param boxes - In any order.
 * @returns What bounds them together, from corner to corner: outer lines run clockwise, holes the other way.
 */
export function joinBoxes(boxes: readonly Box[]): readonly (readonly PerAxis<number>[])[] {
  const xs = cutsOf(boxes.flatMap(({ x0, x1 }) => [x0, x1]));
  const ys = cutsOf(boxes.flatMap(({ y0, y1 }) => [y0, y1]));
  const [columns, rows] = [xs.length - 1, ys.length - 1];
  const filled = new Set<number>();
  for (const box of boxes) {
    const [left, right, top, foot] = [
      placeOf(xs, box.x0),
      placeOf(xs, box.x1),
      placeOf(ys, box.y0),
      placeOf(ys, box.y1),
    ];
    for (let y = top; y < foot; y++) for (let x = left; x < right; x++) filled.add(y * columns + x);
  }
  const isFilled = (x: number, y: number): boolean =>
    x >= 0 && x < columns && y >= 0 && y < rows && filled.has(y * columns + x);
  // Where a side of a cell that has nothing beyond it leads: what it bounds lies on its right.
  const sides = new Map<number, number[]>();
  const wide = columns + 1;
  const add = (fromX: number, fromY: number, toX: number, toY: number): void => {
    const from = fromY * wide + fromX;
    sides.set(from, [...(sides.get(from) ?? []), toY * wide + toX]);
  };
  for (const cell of filled) {
    const [x, y] = [cell % columns, Math.floor(cell / columns)];
    if (!isFilled(x, y - 1)) add(x, y, x + 1, y);
    if (!isFilled(x + 1, y)) add(x + 1, y, x + 1, y + 1);
    if (!isFilled(x, y + 1)) add(x + 1, y + 1, x, y + 1);
    if (!isFilled(x - 1, y)) add(x, y + 1, x, y);
  }
  return follow(sides, wide).map((corners) =>
    corners.map((at) => ({ x: xs[at % wide] ?? 0, y: ys[Math.floor(at / wide)] ?? 0 })),
  );
}

function cutsOf(values: readonly number[]): readonly number[] {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted.filter((value, i) => i === 0 || value - (sorted[i - 1] ?? 0) > near);
}

function placeOf(cuts: readonly number[], value: number): number {
  return cuts.findLastIndex((cut) => cut <= value + near);
}

// Where two lines meet in a corner, each turns to its right, and stays apart from the other.
function follow(sides: Map<number, number[]>, wide: number): readonly (readonly number[])[] {
  const loops: number[][] = [];
  const directionOf = (from: number, to: number): number =>
    to === from + 1 ? 0 : to === from + wide ? 1 : to === from - 1 ? 2 : 3;
  for (const first of sides.keys()) {
    while ((sides.get(first)?.length ?? 0) > 0) {
      const loop: number[] = [];
      const begun = sides.get(first)?.pop();
      if (begun === undefined) break;
      const start = directionOf(first, begun);
      let [at, way] = [begun, start];
      while (at !== first) {
        const next = sides.get(at) ?? [];
        const right = (way + 1) % 4;
        const found = next.findIndex((to) => directionOf(at, to) === right);
        const [to] = next.splice(Math.max(0, found), 1);
        if (to === undefined) break;
        const turned = directionOf(at, to);
        if (turned !== way) loop.push(at);
        [at, way] = [to, turned];
      }
      loops.push(way === start ? loop : [first, ...loop]);
    }
  }
  return loops;
}
