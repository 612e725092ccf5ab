import { boxOfLoops, type OutlineBox } from './part-outline.js';

// Points of a loop that are looked at: of one that crosses no other, any would do.
const mostLookedAt = 64;

/**
 * Pick the loops that lie in no other: the card's outer edge. What lies inside them is the card with
 * its windows.
 *
 * @param loops - Of points x, y, x, y….
 * @returns Those, each turned so that it runs clockwise, as seen.
 */
export function outerLoops(loops: readonly Float64Array[]): readonly Float64Array[] {
  const known = loops.map((loop, i) => ({ loop, i, box: boxOfLoops([loop]), area: areaOf(loop) }));
  return known
    .filter((inner) => !known.some((outer) => isLarger(outer, inner) && lies(inner, outer)))
    .map(({ loop, area }) => (area < 0 ? turnedRound(loop) : loop));
}

interface KnownLoop {
  readonly loop: Float64Array;
  readonly i: number;
  readonly box: OutlineBox;
  readonly area: number;
}

// Of two that are alike one is.
function isLarger(a: KnownLoop, b: KnownLoop): boolean {
  const [areaA, areaB] = [Math.abs(a.area), Math.abs(b.area)];
  return areaA === areaB ? a.i < b.i : areaA > areaB;
}

/**
 * The area inside a loop.
 *
 * @param loop - Of points x, y, x, y….
 * @returns Above 0 where it runs clockwise, as seen with y downwards.
 */
function areaOf(loop: Float64Array): number {
  let twice = 0;
  let [x, y] = [loop.at(-2) ?? 0, loop.at(-1) ?? 0];
  for (let i = 0; i < loop.length; i += 2) {
    twice += x * loop[i + 1]! - loop[i]! * y;
    [x, y] = [loop[i]!, loop[i + 1]!];
  }
  return twice / 2;
}

function turnedRound(loop: Float64Array): Float64Array {
  const turned = new Float64Array(loop.length);
  for (let i = 0; i < loop.length; i += 2) {
    turned[i] = loop[loop.length - 2 - i]!;
    turned[i + 1] = loop[loop.length - 1 - i]!;
  }
  return turned;
}

function lies(inner: KnownLoop, outer: KnownLoop): boolean {
  const slack = 1e-9 * (outer.box.x1 - outer.box.x0 + outer.box.y1 - outer.box.y0);
  const holds =
    inner.box.x0 >= outer.box.x0 - slack &&
    inner.box.y0 >= outer.box.y0 - slack &&
    inner.box.x1 <= outer.box.x1 + slack &&
    inner.box.y1 <= outer.box.y1 + slack;
  if (!holds) return false;
  const points = inner.loop.length / 2;
  const step = Math.max(1, Math.floor(points / mostLookedAt));
  for (let i = 0; i < points; i += step) {
    const [x, y] = [inner.loop[2 * i]!, inner.loop[2 * i + 1]!];
    if (isOutside(outer.loop, x, y, slack)) return false;
  }
  return true;
}

// Neither wound round nor on the line.
function isOutside(loop: Float64Array, x: number, y: number, slack: number): boolean {
  let wound = 0;
  let [ax, ay] = [loop.at(-2) ?? 0, loop.at(-1) ?? 0];
  for (let i = 0; i < loop.length; i += 2) {
    const [bx, by] = [loop[i]!, loop[i + 1]!];
    if (isOn({ ax, ay, bx, by }, { x, y, slack })) return false;
    const side = (bx - ax) * (y - ay) - (x - ax) * (by - ay);
    if (ay <= y && by > y && side > 0) wound++;
    if (ay > y && by <= y && side < 0) wound--;
    [ax, ay] = [bx, by];
  }
  return wound === 0;
}

function isOn(
  { ax, ay, bx, by }: { ax: number; ay: number; bx: number; by: number },
  { x, y, slack }: { x: number; y: number; slack: number },
): boolean {
  const [dx, dy] = [bx - ax, by - ay];
  const squared = dx * dx + dy * dy;
  const along = squared === 0 ? 0 : ((x - ax) * dx + (y - ay) * dy) / squared;
  const t = Math.min(1, Math.max(0, along));
  return Math.hypot(x - ax - t * dx, y - ay - t * dy) <= slack;
}
