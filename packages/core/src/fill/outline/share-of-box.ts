import { coverRows } from './cover-rows.js';
import { boxOfLoops, type PartOutline } from './part-outline.js';

// Edges that a row has to deal with at once: fewer rows, more of them.
const edgesPerRow = 16;
const mostRows = 4096;
// More than any picture has.
const mostAsked = 100_000;

/**
 * Tell which share of the rectangle round an outline lies inside it. Loops that are drawn one over the
 * other may cancel all of it.
 *
 * @param outline - Any.
 * @param rows - That it is looked at in, with as much work as a fill may take; few, quickly, unless told.
 * @returns 0 for one that encloses nothing, to 1.
 * @throws TextureError `bad-drawing` where it crosses itself too often to be filled.
 */
export function shareOfBox(outline: PartOutline, rows?: number): number {
  const { loops, rule } = outline;
  const { x0, y0, x1, y1 } = boxOfLoops(loops);
  const points = loops.reduce((sum, loop) => sum + loop.length / 2, 0);
  const few = Math.min(mostRows, Math.max(1, Math.ceil(points / edgesPerRow)));
  const height = rows === undefined ? few : Math.min(mostAsked, rows);
  const most = rows === undefined ? quickly : undefined;
  if (!(x1 > x0 && y1 > y0)) return 0;
  const scaled = loops.map((loop) =>
    loop.map((at, i) => (i % 2 === 0 ? (at - x0) / (x1 - x0) : ((at - y0) * height) / (y1 - y0))),
  );
  let sum = 0;
  for (const [share] of coverRows({ loops: scaled, rule }, { width: 1, height }, most)) {
    sum += share ?? 0;
  }
  return sum / height;
}

// A fraction of a second; what a hand draws is far below.
const quickly = 10_000_000;
