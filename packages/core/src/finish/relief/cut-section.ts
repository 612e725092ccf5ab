import type { PerAxis } from '../../surface/measurement.js';
import { placesOf } from './bend.js';
import { riseOf, stepsOf } from './cover-flanges.js';
import { type CutCard, nameCards, toCard, topLevel } from './cut-cards.js';
import { type Box, joinBoxes } from './join-boxes.js';
import type { ProfileShape } from './profiles/profile.js';
import type { ReliefPlan } from './relief-plan.js';
import type { Reach } from './relief-strip.js';

/** What lies on a web, and how it comes to lie on the page. */
export interface CutSectionOptions {
  /** Stiffeners. */
  readonly hidden: readonly Reach[];
  /** Splice plates. */
  readonly plates: readonly Box[];
  /** From along the piece, and from its top, to where that lies. */
  readonly place: (at: number, y: number) => PerAxis<number>;
  /** There, the top left corner of what is drawn. */
  readonly at: PerAxis<number>;
}

interface LevelBox extends Box {
  readonly level: number;
}

/**
 * Cut layers of card for a section: each is what stands out as far, or farther, so that it lies on the one
 * before it all over. Bleed is past the outer edges of the piece alone.
 *
 * @param plan - The piece.
 * @param shape - Of its section.
 * @param options - What lies on its web.
 * @returns From the back to the front; none unless asked for.
 */
export function cutSection(
  plan: ReliefPlan,
  shape: ProfileShape,
  options: CutSectionOptions,
): readonly CutCard[] {
  if (plan.card === null) return [];
  const { place, at } = options;
  const boxes = listBoxes(plan, shape, options);
  return nameCards(plan).map((named) => {
    const loops = joinBoxes(boxes.filter(({ level }) => level >= named.level)).map((corners) => {
      const points = corners.flatMap((from, i) => {
        const to = corners[(i + 1) % corners.length] ?? from;
        return bent(plan, from, to).map((along) => place(along, from.y));
      });
      return Float64Array.from(points.flatMap(({ x, y }) => [x - at.x, y - at.y]));
    });
    return toCard(named, { loops, rule: 'nonzero' });
  });
}

// Along a level side, every place where the piece bends; its end is where the next begins.
function bent({ bend }: ReliefPlan, from: PerAxis<number>, to: PerAxis<number>): readonly number[] {
  if (bend === null || from.x === to.x) return [from.x];
  const reach = { x0: Math.min(from.x, to.x), x1: Math.max(from.x, to.x) };
  const places = placesOf(bend, reach).map(({ at }) => at);
  return (from.x < to.x ? places : places.toReversed()).slice(0, -1);
}

function listBoxes(
  plan: ReliefPlan,
  shape: ProfileShape,
  { hidden, plates }: CutSectionOptions,
): readonly LevelBox[] {
  const { length, sizes, bleed, bend, covers } = plan;
  const { stands = [], web } = shape;
  const { depth } = sizes;
  const level = topLevel(stands);
  const rise = riseOf(covers);
  // A page ends a dot past a side that only begins it; what is bent is cut where it ends.
  const most = bend === null ? plan.margin : bleed;
  const past = (out: number): number => (out === rise ? most : bleed);
  const strips = stands.map(({ y0, y1, ...strip }) => ({
    ...{ level: strip.level, x0: -most, x1: length + most },
    y0: y0 === 0 ? -past(0) : y0,
    y1: y1 === depth ? depth + past(0) : y1,
  }));
  const cover = stepsOf(plan).flatMap(({ x0, x1, high }) => {
    const wide = { level, x0: x0 - bleed, x1: x1 + bleed };
    const out = high + past(high);
    return [
      { ...wide, y0: -out, y1: 0 },
      { ...wide, y0: depth, y1: depth + out },
    ];
  });
  return [
    ...strips,
    ...cover,
    ...plates.map((plate) => ({ ...plate, level: 1 })),
    ...(web === null ? [] : hidden.map(({ x0, x1 }) => ({ level, x0, x1, ...web }))),
  ];
}
