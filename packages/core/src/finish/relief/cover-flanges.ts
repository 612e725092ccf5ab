import type { Box } from './join-boxes.js';
import { outOfRange } from '../../errors/out-of-range.js';
import { sideOf } from './fit-out.js';
import { inBoth, leastInBoth } from './in-both.js';
import { shadeRim } from './light-side.js';
import { leastLine, unseen, widestLine } from './pens.js';
import type { Covers, ReliefPlan } from './relief-plan.js';
import type { Reach, ReliefStrip } from './relief-strip.js';

/** Where a cover plate lies, and how far out. */
interface Cover extends Reach {
  // From the flange to its foot, and to its top.
  readonly low: number;
  readonly high: number;
  // The one on it.
  readonly over: Reach | null;
}

/**
 * Tell how far cover plates stand out from a flange.
 *
 * @param covers - Those of one flange, or null.
 * @returns Mm of paper.
 */
export function riseOf(covers: Covers | null): number {
  return covers === null ? 0 : covers.lengths.length * plateOf(covers);
}

function plateOf({ thickness, least }: Covers): number {
  return Math.max(least, thickness);
}

/** Plates on both flanges. */
export interface CoveredFlanges {
  /** Their lines, and bare paper beside them. */
  readonly strips: readonly ReliefStrip[];
  /** What of the flanges' own edges they hide. */
  readonly hidden: readonly Reach[];
}

/**
 * Draw cover plates on both flanges, each shorter than the one under it: their outer edges, their ends, and
 * bare paper beside them, to be cut away.
 *
 * @param plan - The piece without them; its cover plates, the longest first.
 * @returns What they are drawn with.
 * @throws RangeError where plates do not lie within one another.
 */
export function coverFlanges(plan: ReliefPlan): CoveredFlanges {
  const { covers, sizes, margin, bleed, length } = plan;
  if (covers === null) return { strips: [], hidden: [] };
  const plates = stack(covers, plan);
  const strips = (['up', 'down'] as const).flatMap((side) => {
    // Drawn as on the top flange, and turned about for the other.
    const isUp = side === 'up';
    const toSide = ({ y0, y1, ...box }: Box): Box =>
      isUp ? { ...box, y0, y1 } : { ...box, y0: sizes.depth - y1, y1: sizes.depth - y0 };
    const outwards = { x: 0, y: isUp ? -1 : 1 };
    return plates.flatMap((plate) => [
      ...topsOf(plate, margin).map((box) => sideOf(toSide(box), outwards, shadeRim)),
      ...([-1, 1] as const).flatMap((side) =>
        // Where light runs along its top, that has no line, and its end shows all.
        endsOf(plate, margin, side).map((box): ReliefStrip => ({
          ...{ x0: box.x0, x1: box.x1, isPaper: false },
          lit: (light) => {
            const isPlain = Math.abs(shadeRim(outwards, light)) < unseen;
            const shown = isPlain ? box : belowTop(box, plate);
            return sideOf(toSide(shown), { x: side, y: 0 }).lit(light);
          },
        })),
      ),
    ]);
  });
  const top = -riseOf(covers) - margin;
  const paper = [1, -1].flatMap((sign) =>
    plates
      .flatMap((plate) => bare(plate, { bleed, margin, length, top }))
      .map(({ x0, x1, y0, y1 }): ReliefStrip => {
        const y = sign > 0 ? { y0, y1 } : { y0: sizes.depth - y1, y1: sizes.depth - y0 };
        return { x0, x1, isPaper: true, lit: () => ({ ...y, top: 1, foot: 1 }) };
      }),
  );
  const [first] = plates;
  return { strips: [...strips, ...paper], hidden: first === undefined ? [] : [first] };
}

/**
 * Tell how far cover plates stand out, from end to end.
 *
 * @param plan - The piece without them.
 * @returns Where each begins and ends, and how far it stands out from the flange; the longest first.
 * @throws RangeError where plates do not lie within one another.
 */
export function stepsOf(plan: ReliefPlan): readonly (Reach & { readonly high: number })[] {
  return plan.covers === null ? [] : stack(plan.covers, plan);
}

function stack(covers: Covers, { length, ratio }: ReliefPlan): readonly Cover[] {
  const thick = plateOf(covers);
  // Of what ends beside it, a line and as much face.
  const step = 2 * leastLine;
  const ranges = covers.lengths.map((plate, i): Reach => {
    const under = i === 0 ? length : (covers.lengths[i - 1] ?? length) - 2 * step;
    if (plate > under) {
      const wanted = `up to ${inBoth(under, ratio)}, so that it ends on what lies under it,`;
      throw outOfRange(wanted, 'covers', inBoth(plate, ratio));
    }
    if (plate < 3 * leastLine) {
      throw outOfRange(
        `${leastInBoth(3 * leastLine, ratio)} or more`,
        'covers',
        inBoth(plate, ratio),
      );
    }
    return { x0: (length - plate) / 2, x1: (length + plate) / 2 };
  });
  return ranges.map((range, i) => ({
    ...range,
    low: i * thick,
    high: (i + 1) * thick,
    over: ranges[i + 1] ?? null,
  }));
}

// Where the next plate does not lie on it.
function topsOf(plate: Cover, margin: number): readonly Box[] {
  const { x0, x1, high, over } = plate;
  const y = { y0: -high - margin, y1: footOfTop(plate) };
  const [left, right] = [x0 - margin, x1 + margin];
  const tops =
    over === null
      ? [{ ...y, x0: left, x1: right }]
      : [
          { ...y, x0: left, x1: over.x0 },
          { ...y, x0: over.x1, x1: right },
        ];
  return tops.flatMap((box) => overBleed(box, plate, margin));
}

function endsOf(plate: Cover, margin: number, side: -1 | 1): readonly Box[] {
  const { x0, x1, low, high } = plate;
  const y = { y0: -high, y1: -low };
  const box =
    side < 0
      ? { ...y, x0: x0 - margin, x1: x0 + leastLine }
      : { ...y, x0: x1 - leastLine, x1: x1 + margin };
  return overBleed(box, plate, margin);
}

// Its foot may lie above its top then: of that nothing is drawn.
function belowTop(box: Box, plate: Cover): Box {
  return { ...box, y0: footOfTop(plate) };
}

function footOfTop({ low, high }: Cover): number {
  return -high + Math.min(widestLine, high - low);
}

// Past its ends a plate's bleed goes no farther down than to the bleed of what it lies on.
function overBleed(box: Box, { x0, x1, low }: Cover, margin: number): readonly Box[] {
  const y1 = Math.min(box.y1, -low - margin);
  return [
    { ...box, x1: Math.min(box.x1, x0), y1 },
    { ...box, x0: Math.max(box.x0, x0), x1: Math.min(box.x1, x1) },
    { ...box, x0: Math.max(box.x0, x1), y1 },
  ].filter((part) => part.x1 > part.x0 && part.y1 > part.y0);
}

interface Around {
  readonly bleed: number;
  readonly margin: number;
  readonly length: number;
  // Over the last plate and its bleed.
  readonly top: number;
}

// On both sides of a plate, past its bleed. Each goes up to the top: were one only to meet the next, the row of dots
// that both begin would show through.
function bare({ x0, x1, low }: Cover, { bleed, margin, length, top }: Around): readonly Box[] {
  const y = { y0: top, y1: -low - bleed };
  return [
    { ...y, x0: -margin, x1: x0 - bleed },
    { ...y, x0: x1 + bleed, x1: length + margin },
  ].filter((side) => side.x1 > side.x0);
}
