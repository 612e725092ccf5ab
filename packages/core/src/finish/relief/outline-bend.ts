import { outOfRange } from '../../errors/out-of-range.js';
import type { PerAxis } from '../../surface/measurement.js';
import { type Bend, placesOf } from './bend.js';
import { riseOf, stepsOf } from './cover-flanges.js';
import { inBoth } from './in-both.js';
import type { ReliefPlan } from './relief-plan.js';
import { onBend } from './sweep-strip.js';

/** What bounds a bent piece with its bleed. */
export interface BentOutline {
  /** Round it, mm, where the bend lies. */
  readonly box: {
    readonly x0: number;
    readonly y0: number;
    readonly x1: number;
    readonly y1: number;
  };
  /** Closed lines of points x, y, x, y… from the box's top left corner; closed, its inner edge as well. */
  readonly outline: readonly Float64Array[];
}

// Of a curve that is drawn as a curve, bits turn by far less.
const corner = Math.PI / 18;
// What bends tighter than this many times half its depth comes to a fold.
const least = 1.1;

/**
 * Follow what bounds a bent piece, its plates, its bleed and all.
 *
 * @param plan - The piece.
 * @returns Its outline.
 * @throws RangeError where it has corners, or bends tighter than its depth allows.
 */
export function outlineBend(plan: ReliefPlan & { readonly bend: Bend }): BentOutline {
  const { bend, sizes, covers, ratio } = plan;
  const half = sizes.depth / 2 + riseOf(covers);
  if (bend.sharpest > corner) {
    const degrees = Math.round((bend.sharpest * 180) / Math.PI);
    throw outOfRange('a path without corners', 'along', `one of ${degrees} degrees`);
  }
  if (bend.tightest < least * half) {
    const wanted = `a radius of ${inBoth(least * half, ratio)} or more all along, for a piece ${inBoth(2 * half, ratio)} deep,`;
    throw outOfRange(wanted, 'along', inBoth(bend.tightest, ratio));
  }
  const { depth } = sizes;
  const { bleed } = plan;
  const [top, foot] = ([-1, 1] as const).map((side) =>
    heightsAlong(plan).flatMap(({ x0, x1, high }) =>
      placesOf(bend, { x0, x1 }).map((place) =>
        onBend(place, side < 0 ? -high - bleed : depth + high + bleed, depth),
      ),
    ),
  );
  const loops = bend.isClosed
    ? [top ?? [], (foot ?? []).toReversed()]
    : [[...(top ?? []), ...(foot ?? []).toReversed()]];
  const box = boxOf(loops.flat());
  return {
    box,
    outline: loops.map((loop) =>
      Float64Array.from(loop.flatMap(({ x, y }) => [x - box.x0, y - box.y0])),
    ),
  };
}

// How far it stands out over its depth, stretch by stretch; what ends a plate has bleed as well.
function heightsAlong(plan: ReliefPlan): readonly {
  readonly x0: number;
  readonly x1: number;
  readonly high: number;
}[] {
  const { length: long, bleed, bend } = plan;
  const steps = stepsOf(plan).map(({ x0, x1, high }) => ({ x0: x0 - bleed, x1: x1 + bleed, high }));
  const [begin, length] = bend?.isClosed === true ? [0, long] : [-bleed, long + bleed];
  const cuts = [
    begin,
    ...steps.map(({ x0 }) => x0),
    ...steps.toReversed().map(({ x1 }) => x1),
    length,
  ];
  return cuts.slice(1).map((x1, i) => {
    const x0 = cuts[i] ?? begin;
    const middle = (x0 + x1) / 2;
    const over = steps.findLast((step) => step.x0 <= middle && step.x1 >= middle);
    return { x0, x1, high: over?.high ?? 0 };
  });
}

function boxOf(points: readonly PerAxis<number>[]): BentOutline['box'] {
  let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const { x, y } of points) {
    [x0, x1] = [Math.min(x0, x), Math.max(x1, x)];
    [y0, y1] = [Math.min(y0, y), Math.max(y1, y)];
  }
  return { x0, y0, x1, y1 };
}
