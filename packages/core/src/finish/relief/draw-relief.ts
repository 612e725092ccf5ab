import { outOfRange } from '../../errors/out-of-range.js';
import { moveMark } from '../../page/move-mark.js';
import type { ReliefMark } from '../../page/relief-mark.js';
import type { PerAxis } from '../../surface/measurement.js';
import { type Bend, placeAt } from './bend.js';
import { outlineBend } from './outline-bend.js';
import { buttJoints } from './butt-joints.js';
import { cutSection } from './cut-section.js';
import { type CoveredFlanges, coverFlanges, riseOf } from './cover-flanges.js';
import { drawFigure } from './draw-figure.js';
import type { DrawnRelief } from './drawn-relief.js';
import { drawFaces, drawLines } from './draw-faces.js';
import { around, fitOut } from './fit-out.js';
import { type EdgeLine, layLines } from './lay-lines.js';
import { type Light, toLight } from './light-side.js';
import { leastLine } from './pens.js';
import type { ReliefPlan } from './relief-plan.js';
import { type ReliefStrip, toBand } from './relief-strip.js';
import { onBend, sweepStrip } from './sweep-strip.js';
import { joinBands } from './join-bands.js';
import { layDown, standUp } from './turn-upright.js';
import { mapShades } from './map-shades.js';

/**
 * Draw a section from the side, lit: what lies deeper darker, the shadow of a flange on it, and a line
 * along every edge, light or dark as its normal asks. No line is thinner than prints: a flange that would
 * hold none is drawn as thick as one. A bent piece is lit bit by bit, as each lies.
 *
 * @param plan - All that is known of the piece.
 * @returns Its marks.
 * @throws RangeError where its lines or fittings would touch, or it cannot be bent as far.
 */
export function drawRelief(plan: ReliefPlan): DrawnRelief {
  return plan.isUpright ? standUp(drawLying(layDown(plan))) : drawLying(plan);
}

function drawLying(plan: ReliefPlan): DrawnRelief {
  const { profile, sizes, length, margin, strength, covers, bend } = plan;
  if (!(strength >= 0 && strength <= 1)) throw outOfRange('0 to 1', 'strength', strength);
  const figure = profile.figure?.(plan);
  if (figure !== undefined) return drawFigure(plan, figure);
  const light = toLight(plan.light);
  const flange = flangeOf(plan);
  const shape = profile.shape({ ...sizes, flange });
  if (covers !== null && shape.web === null) {
    throw outOfRange(
      'a profile with two flanges (i, channel, plate-girder)',
      'covers',
      profile.name,
    );
  }
  const lines = layLines(shape, plan);
  const fitted = fitOut(plan, shape, { light, lines });
  const reach = { x0: -margin, x1: length + margin };
  const joints = buttJoints(plan, shape.boards ?? []);
  const drawn = drawLines(pastSides(lines, sizes.depth, margin), reach);
  // Within a flange nothing stands on its lines but the plates that cover it.
  const [outer, inner] = [true, false].map((isOuter) =>
    drawn.filter((_, i) => (lines[i]?.edge.room !== null) === isOuter),
  );
  const rims = layRims(outer ?? [], coverFlanges(plan));
  const under = [
    ...[...drawFaces(shape, reach), ...(inner ?? [])].flatMap((strip) =>
      around(strip, fitted.hidden),
    ),
    ...rims.below,
    ...joints,
    ...fitted.strips,
  ];
  const laid = bend === null ? layStraight(plan, light) : layBent({ ...plan, bend }, light);
  const marks = [
    ...under.flatMap(laid.strip),
    ...fitted.discs.map((disc) => ({ ...disc, ...laid.place(disc.x, disc.y) })),
    ...joinBands(rims.above.flatMap(laid.strip)),
  ];
  const rise = riseOf(covers);
  return {
    marks: marks
      .flatMap((mark) => mapShades(mark, (shade) => shade * strength))
      .map((mark) => moveMark(mark, -laid.at.x, -laid.at.y)),
    size: laid.size,
    outline: laid.outline,
    at: laid.at,
    length,
    place: (along, y) => {
      const point = laid.place(along, y - rise);
      return { x: point.x - laid.at.x, y: point.y - laid.at.y };
    },
    lines: lines.map(({ edge, y0, y1 }) => ({ edge, y0: y0 + rise, y1: y1 + rise })),
    flange,
    cards: cutSection(plan, shape, { ...fitted, place: laid.place, at: laid.at }),
    rivets: fitted.discs.length,
    stiffeners: fitted.hidden.length,
    joints: joints.length,
  };
}

interface Rims {
  readonly below: readonly ReliefStrip[];
  readonly above: readonly ReliefStrip[];
}

// Outer lines of flanges: beside plates they are one with those of the plates, which end in the middle of dots.
function layRims(outer: readonly ReliefStrip[], { strips, hidden }: CoveredFlanges): Rims {
  if (hidden.length === 0) return { below: outer, above: strips };
  const beside = outer.flatMap((strip) => around(strip, hidden));
  return { below: [], above: [...beside, ...strips] };
}

// Thick enough for a line, and to be cut.
function flangeOf({ sizes, card }: ReliefPlan): number | null {
  return sizes.flange === null ? null : Math.max(leastLine, sizes.flange, card ?? 0);
}

// How what lies along a piece comes to lie on the page.
interface Laying {
  readonly strip: (strip: ReliefStrip) => readonly ReliefMark[];
  readonly place: (at: number, y: number) => PerAxis<number>;
  readonly size: PerAxis<number>;
  readonly outline: DrawnRelief['outline'];
  readonly at: PerAxis<number>;
}

function layStraight({ sizes, length, covers }: ReliefPlan, light: Light): Laying {
  const rise = riseOf(covers);
  return {
    strip: (strip) => toBand(strip, light),
    place: (x, y) => ({ x, y }),
    size: { x: length, y: sizes.depth + 2 * rise },
    outline: null,
    at: { x: 0, y: -rise },
  };
}

function layBent(plan: ReliefPlan & { readonly bend: Bend }, light: Light): Laying {
  const { bend, sizes } = plan;
  const { depth } = sizes;
  const { box, outline } = outlineBend(plan);
  return {
    // Beside its plates there is nothing of it.
    strip: (strip) => (strip.isPaper ? [] : sweepStrip(strip, { bend, depth }, light)),
    place: (along, y) => onBend(placeAt(bend, along), y, depth),
    size: { x: box.x1 - box.x0, y: box.y1 - box.y0 },
    outline: { loops: outline, rule: 'nonzero', isBled: true },
    at: { x: box.x0, y: box.y0 },
  };
}

// What lies along a side goes on past it.
function pastSides(lines: readonly EdgeLine[], depth: number, margin: number): readonly EdgeLine[] {
  return lines.map(({ edge, y0, y1 }) => ({
    edge,
    y0: edge.at === 0 ? y0 - margin : y0,
    y1: edge.at === depth ? y1 + margin : y1,
  }));
}
