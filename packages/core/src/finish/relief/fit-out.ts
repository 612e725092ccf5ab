import type { Box } from './join-boxes.js';
import { outOfRange } from '../../errors/out-of-range.js';
import type { ReliefDisc } from '../../page/relief-mark.js';
import type { PerAxis } from '../../surface/measurement.js';
import { inBoth, leastInBoth } from './in-both.js';
import type { EdgeLine } from './lay-lines.js';
import { shadeEdge } from './light-side.js';
import { inks, leastLine } from './pens.js';
import { placeAlong } from './place-along.js';
import type { ProfileShape, Stretch } from './profiles/profile.js';
import type { ReliefPlan, Rivets, Splices, Stiffeners } from './relief-plan.js';
import type { Reach, ReliefStrip } from './relief-strip.js';

/** What stands on a web, and what it hides of it. */
export interface FittedWeb {
  /** From side to side of each stiffener, with its lines: what lies under them is not drawn. */
  readonly hidden: readonly Reach[];
  /** Stiffeners and splices, over the web. */
  readonly strips: readonly ReliefStrip[];
  /** Where splice plates lie. */
  readonly plates: readonly (Reach & Stretch)[];
  /** Rivets, over all. */
  readonly discs: readonly ReliefDisc[];
}

interface DrawnLines {
  readonly light: PerAxis<number>;
  readonly lines: readonly EdgeLine[];
}

/**
 * Fit out a web: stiffeners, splices, rivets.
 *
 * @param plan - What there is of them.
 * @param shape - The section.
 * @param drawn - Towards the light, and the lines that rivets keep clear of.
 * @returns What they are drawn with.
 * @throws RangeError where the section has no place for them, or they would touch.
 */
export function fitOut(plan: ReliefPlan, shape: ProfileShape, drawn: DrawnLines): FittedWeb {
  const { profile, rivets, stiffeners, splices } = plan;
  const { web, plain } = shape;
  if (web === null && (stiffeners ?? splices) !== null) {
    const name = stiffeners === null ? 'splices' : 'stiffeners';
    throw outOfRange('a profile with a web (i, channel, plate-girder)', name, profile.name);
  }
  const bars = web === null || stiffeners === null ? [] : placeBars(stiffeners, plan);
  const plates = plain === null || splices === null ? [] : placePlates(splices, plain, plan);
  for (const plate of plates) keepClear(plate, bars, plan);
  return {
    hidden: bars,
    plates,
    strips: [
      ...plates.flatMap(drawPlate).flatMap((strip) => around(strip, bars)),
      ...(web === null ? [] : bars.flatMap((bar) => drawBar(bar, web))),
    ],
    discs: rivets === null ? [] : drawRivets(rivets, { plan, shape, bars, plates }, drawn),
  };
}

/**
 * Leave out of a strip what is hidden.
 *
 * @param strip - From end to end.
 * @param hidden - From left to right.
 * @returns What is left of it.
 */
export function around(strip: ReliefStrip, hidden: readonly Reach[]): readonly ReliefStrip[] {
  const left: ReliefStrip[] = [];
  let { x0 } = strip;
  for (const { x0: from, x1: to } of hidden) {
    if (from > x0) left.push({ ...strip, x0, x1: Math.min(from, strip.x1) });
    x0 = Math.max(x0, to);
    if (x0 >= strip.x1) return left;
  }
  return [...left, { ...strip, x0 }];
}

interface Bar extends Reach {
  // Without its lines.
  readonly face: Reach;
}

// A line on each side of it, on the web.
function placeBars({ pitch, thickness }: Stiffeners, plan: ReliefPlan): readonly Bar[] {
  const card = plan.card ?? 0;
  const wide = Math.max(leastLine, thickness, card - 2 * leastLine);
  const all = wide + 2 * leastLine;
  const least = all + Math.max(leastLine, card);
  if (pitch < least) throw tooClose('stiffeners', pitch, [least, plan.ratio]);
  return placeAlong(plan.length, pitch, all).map((x) => ({
    x0: x - all / 2,
    x1: x + all / 2,
    face: { x0: x - wide / 2, x1: x + wide / 2 },
  }));
}

function tooClose(
  name: string,
  pitch: number,
  [least, ratio]: readonly [number, number],
): RangeError {
  const wanted = `a pitch of ${leastInBoth(least, ratio)} or more, so that they stay apart,`;
  return outOfRange(wanted, name, inBoth(pitch, ratio));
}

function drawBar(bar: Bar, { y0, y1 }: Stretch): readonly ReliefStrip[] {
  return [
    sideOf({ x0: bar.x0, x1: bar.face.x0, y0, y1 }, { x: -1, y: 0 }),
    sideOf({ x0: bar.face.x1, x1: bar.x1, y0, y1 }, { x: 1, y: 0 }),
  ];
}

/**
 * Draw a side of something that stands out.
 *
 * @param box - Where its line lies.
 * @param normal - Where it looks to.
 * @param shadeOf - What light makes of it; unless told, beside it something lies deeper.
 * @returns A strip, as light as that asks.
 */
export function sideOf(
  box: Box,
  normal: PerAxis<number>,
  shadeOf: typeof shadeEdge = shadeEdge,
): ReliefStrip {
  const { x0, x1, y0, y1 } = box;
  return {
    ...{ x0, x1, isPaper: false },
    lit: (light) => {
      const shade = shadeOf(normal, light);
      return { y0, y1, top: shade, foot: shade };
    },
  };
}

function placePlates(
  { at, width, isWidthTold }: Splices,
  web: Stretch,
  { length, ratio, card }: ReliefPlan,
): readonly Box[] {
  // Two lines, and some face between.
  const least = Math.max(3 * leastLine, card ?? 0);
  if (width < least) {
    const wanted = `${leastInBoth(least, ratio)} or more, so that its lines stay apart,`;
    throw outOfRange(wanted, 'spliceWidth', inBoth(width, ratio));
  }
  const inset = 2 * leastLine;
  const [y0, y1] = [web.y0 + inset, web.y1 - inset];
  if (y1 - y0 < least) {
    const deep = `a web of ${leastInBoth(least + 2 * inset, ratio)} or more between its flanges`;
    throw outOfRange(deep, 'splices', inBoth(web.y1 - web.y0, ratio));
  }
  const sorted = [...at].sort((a, b) => a - b);
  sorted.forEach((x, i) => {
    const from = i === 0 ? 0 : (sorted[i - 1] ?? 0) + width / 2;
    if (x - width / 2 >= from && x + width / 2 <= length) return;
    const room = 2 * Math.min(i === 0 ? x : (x - (sorted[i - 1] ?? 0)) / 2, length - x);
    if (isWidthTold && room >= least) {
      const most = `up to ${inBoth(room, ratio)}, for plates that lie where they are told to,`;
      throw outOfRange(most, 'spliceWidth', inBoth(width, ratio));
    }
    const wanted = 'splices that lie between the ends, and beside one another,';
    throw outOfRange(wanted, 'splices', inBoth(x, ratio));
  });
  return sorted.map((x) => ({ x0: x - width / 2, x1: x + width / 2, y0, y1 }));
}

// A stiffener stands beside a splice, or over the joint between both columns of rivets: elsewhere it would
// hide one of them, or touch a line.
function keepClear(plate: Box, bars: readonly Bar[], { rivets, ratio }: ReliefPlan): void {
  const { x0, x1 } = plate;
  const column = rivets === null ? 0 : (x1 - x0) / 4 + headOf(rivets) / 2;
  const inside = Math.max(2 * leastLine, column);
  const isClear = (bar: Bar): boolean =>
    bar.x1 + leastLine <= x0 ||
    bar.x0 - leastLine >= x1 ||
    (bar.x0 >= x0 + inside && bar.x1 <= x1 - inside);
  if (bars.every(isClear)) return;
  const wanted = 'a splice beside the stiffeners, or with one of them in its middle,';
  throw outOfRange(wanted, 'splices', inBoth((x0 + x1) / 2, ratio));
}

function headOf({ head }: Rivets): number {
  return Math.max(leastLine, head);
}

// Its lines lie on it, for it stands out by its thickness alone.
function drawPlate({ x0, x1, y0, y1 }: Box): readonly ReliefStrip[] {
  const [top, foot] = [y0 + leastLine, y1 - leastLine];
  return [
    sideOf({ x0, x1, y0, y1: top }, { x: 0, y: -1 }),
    sideOf({ x0, x1, y0: foot, y1 }, { x: 0, y: 1 }),
    sideOf({ x0, x1: x0 + leastLine, y0: top, y1: foot }, { x: -1, y: 0 }),
    sideOf({ x0: x1 - leastLine, x1, y0: top, y1: foot }, { x: 1, y: 0 }),
  ];
}

interface Riveted {
  readonly plan: ReliefPlan;
  readonly shape: ProfileShape;
  readonly bars: readonly Reach[];
  readonly plates: readonly Box[];
}

function drawRivets(
  rivets: Rivets,
  { plan, shape, bars, plates }: Riveted,
  { light, lines }: DrawnLines,
): readonly ReliefDisc[] {
  const { pitch, isHeadTold } = rivets;
  const head = headOf(rivets);
  if (pitch < head + leastLine) {
    if (isHeadTold && pitch >= 2 * leastLine) {
      const most = `up to ${inBoth(pitch - leastLine, plan.ratio)}, so that they stay apart,`;
      throw outOfRange(most, 'rivetHead', inBoth(head, plan.ratio));
    }
    throw tooClose('rivets', pitch, [head + leastLine, plan.ratio]);
  }
  const rows = shape.rivetRows(head);
  if (rows.length + plates.length === 0) {
    const where = 'a profile with rivets (plate-girder, plate, angle, tee), or a splice,';
    throw outOfRange(where, 'rivets', plan.profile.name);
  }
  for (const y of rows) keepOffLines(y, head, { lines, ratio: plan.ratio });
  if (pitch > plan.length) {
    const wanted = `a pitch of ${inBoth(plan.length, plan.ratio)} or less, the length,`;
    throw outOfRange(wanted, 'rivets', inBoth(pitch, plan.ratio));
  }
  const along = placeAlong(plan.length, pitch, head);
  const places = [
    ...rows.flatMap((y) => along.map((x) => ({ x, y }))),
    ...plates.flatMap((plate) => inPlate(plate, pitch, head)),
  ];
  const isFree = ({ x }: PerAxis<number>): boolean =>
    bars.every(({ x0, x1 }) => x + head / 2 <= x0 || x - head / 2 >= x1);
  return places
    .filter(isFree)
    .map(({ x, y }) => ({ kind: 'disc', x, y, radius: head / 2, opacity: inks.line, light }));
}

// Between the lines above and below its row.
function keepOffLines(
  y: number,
  head: number,
  { lines, ratio }: { readonly lines: readonly EdgeLine[]; readonly ratio: number },
): void {
  const room = Math.min(...lines.map(({ y0, y1 }) => Math.max(y0 - y, y - y1, 0)));
  if (head / 2 <= room + 1e-9) return;
  const wanted =
    room > leastLine / 2
      ? `heads of ${inBoth(2 * room, ratio)} or less, so that they stay off the lines beside them,`
      : 'no rivets where the lines beside them leave no room,';
  throw outOfRange(wanted, room > leastLine / 2 ? 'rivetHead' : 'rivets', inBoth(head, ratio));
}

// A column on either side of the joint that the plate covers.
function inPlate({ x0, x1, y0, y1 }: Box, pitch: number, head: number): readonly PerAxis<number>[] {
  const quarter = (x1 - x0) / 4;
  const inset = 2 * leastLine;
  const rows = placeAlong(y1 - y0 - 2 * inset, pitch, head).map((y) => y0 + inset + y);
  return rows.flatMap((y) => [
    { x: x0 + quarter, y },
    { x: x1 - quarter, y },
  ]);
}
