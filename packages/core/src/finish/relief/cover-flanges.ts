import { outOfRange } from '../../errors/out-of-range.js';
import type { ReliefBand } from '../../page/relief-mark.js';
import type { PerAxis } from '../../surface/measurement.js';
import type { Reach } from './draw-faces.js';
import { inBoth, leastInBoth } from './in-both.js';
import { shadeEdge } from './light-side.js';
import { leastLine, widestLine } from './pens.js';
import type { Covers, ReliefPlan } from './relief-plan.js';

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

// No thinner than a line.
function plateOf({ thickness }: Covers): number {
  return Math.max(leastLine, thickness);
}

/**
 * Draw cover plates on both flanges, each shorter than the one under it: their outer edges, their ends, and
 * bare paper beside them, to be cut away.
 *
 * @param plan - The piece without them; its cover plates, the longest first.
 * @param light - Towards the light.
 * @returns Bands, and of the flanges' own edges what is still seen.
 * @throws RangeError where plates do not lie within one another.
 */
export function coverFlanges(
  plan: ReliefPlan,
  light: PerAxis<number>,
): { readonly bands: readonly ReliefBand[]; readonly hidden: readonly Reach[] } {
  const { covers, sizes, margin, bleed, length } = plan;
  if (covers === null) return { bands: [], hidden: [] };
  const plates = stack(covers, plan);
  const sides = ['up', 'down'] as const;
  const toSide = (band: ReliefBand, side: 'up' | 'down'): ReliefBand =>
    side === 'up' ? band : { ...band, y0: sizes.depth - band.y1, y1: sizes.depth - band.y0 };
  const bands = sides.flatMap((side) => {
    const edge = shadeEdge({ x: 0, y: side === 'up' ? -1 : 1 }, light);
    const lines = plates.flatMap((plate) => [
      ...drawTop(plate, margin, edge),
      drawEnd(plate, margin, { ...shadeEdge({ x: -1, y: 0 }, light), x: -1 }),
      drawEnd(plate, margin, { ...shadeEdge({ x: 1, y: 0 }, light), x: 1 }),
    ]);
    return lines.map((band) => toSide(band, side));
  });
  const paper = sides.flatMap((side) => {
    return plates
      .flatMap((plate, i) =>
        bare(plate, { bleed, margin, length, isLast: i === plates.length - 1 }),
      )
      .map((band) => toSide(band, side));
  });
  const [first] = plates;
  return { bands: [...bands, ...paper], hidden: first === undefined ? [] : [first] };
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

interface Shade {
  readonly tone: 'light' | 'dark';
  readonly opacity: number;
}

// Where the next plate does not lie on it.
function drawTop(plate: Cover, margin: number, { tone, opacity }: Shade): readonly ReliefBand[] {
  const { x0, x1, low, high, over } = plate;
  const thick = Math.min(widestLine, high - low);
  const line = { kind: 'band', tone, top: opacity, foot: opacity } as const;
  const y = { y0: -high - margin, y1: -high + thick };
  const [left, right] = [x0 - margin, x1 + margin];
  if (over === null) return [{ ...line, ...y, x0: left, x1: right }];
  return [
    { ...line, ...y, x0: left, x1: over.x0 },
    { ...line, ...y, x0: over.x1, x1: right },
  ];
}

// Below the line of its top.
function drawEnd(
  { x0, x1, low, high }: Cover,
  margin: number,
  { x, tone, opacity }: Shade & { readonly x: -1 | 1 },
): ReliefBand {
  const y0 = -high + Math.min(widestLine, high - low);
  const box =
    x < 0 ? { x0: x0 - margin, x1: x0 + leastLine } : { x0: x1 - leastLine, x1: x1 + margin };
  return { kind: 'band', tone, ...box, y0, y1: -low, top: opacity, foot: opacity };
}

interface Around {
  readonly bleed: number;
  readonly margin: number;
  readonly length: number;
  // Above the last plate there is nothing but its own bleed.
  readonly isLast: boolean;
}

// On both sides of a plate, past its bleed.
function bare({ x0, x1, low, high }: Cover, around: Around): readonly ReliefBand[] {
  const { bleed, margin, length, isLast } = around;
  const band = { kind: 'band', tone: 'paper', top: 1, foot: 1 } as const;
  const y = { y0: -high - (isLast ? margin : bleed), y1: -low - bleed };
  return [
    { ...band, ...y, x0: -margin, x1: x0 - bleed },
    { ...band, ...y, x0: x1 + bleed, x1: length + margin },
  ].filter((side) => side.x1 > side.x0);
}
