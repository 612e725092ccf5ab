import { outOfRange } from '../../errors/out-of-range.js';
import type { ReliefMark } from '../../page/relief-mark.js';
import { coverFlanges, riseOf } from './cover-flanges.js';
import { drawFaces, drawLines } from './draw-faces.js';
import { around, fitOut } from './fit-out.js';
import { type EdgeLine, layLines } from './lay-lines.js';
import { toDirection } from './light-side.js';
import { leastLine } from './pens.js';
import type { ReliefPlan } from './relief-plan.js';

/** A piece drawn in relief. */
export interface DrawnRelief {
  /** What lies over the ground, in mm of paper from the top left corner. */
  readonly marks: readonly ReliefMark[];
  /** The lines of level edges, from the top to the foot. */
  readonly lines: readonly EdgeLine[];
  /** How thick its flanges are drawn, mm of paper; null where it has none. */
  readonly flange: number | null;
  /** How many rivets it has. */
  readonly rivets: number;
  /** How many stiffeners. */
  readonly stiffeners: number;
}

/**
 * Draw a section from the side, lit: what lies deeper darker, the shadow of a flange on it, and a line
 * along every edge, light or dark as its normal asks. No line is thinner than prints: a flange that would
 * hold none is drawn as thick as one.
 *
 * @param plan - All that is known of the piece.
 * @returns Its marks.
 * @throws RangeError where its lines or fittings would touch.
 */
export function drawRelief(plan: ReliefPlan): DrawnRelief {
  const { profile, sizes, length, margin, strength, covers } = plan;
  if (!(strength >= 0 && strength <= 1)) throw outOfRange('0 to 1', 'strength', strength);
  const light = toDirection(plan.light);
  const flange = sizes.flange === null ? null : Math.max(leastLine, sizes.flange);
  const shape = profile.shape({ ...sizes, flange });
  if (covers !== null && shape.web === null) {
    throw outOfRange(
      'a profile with two flanges (i, channel, plate-girder)',
      'covers',
      profile.name,
    );
  }
  const lines = layLines(shape, plan);
  const fitted = fitOut(plan, shape, light);
  const covered = coverFlanges(plan, light);
  const reach = { x0: -margin, x1: length + margin };
  const drawn = drawLines(pastSides(lines, sizes.depth, margin), light, reach);
  // Within a flange nothing stands on its lines but the plates that cover it.
  const [outer, inner] = [true, false].map((isOuter) =>
    drawn.filter((_, i) => (lines[i]?.edge.room !== null) === isOuter),
  );
  const marks = [
    ...[...drawFaces(shape, light, reach), ...(inner ?? [])].flatMap((band) =>
      around(band, fitted.hidden),
    ),
    ...(outer ?? []).flatMap((band) => around(band, covered.hidden)),
    ...fitted.bands,
    ...fitted.discs,
    ...covered.bands,
  ];
  const rise = riseOf(covers);
  return {
    marks: marks.flatMap((mark) => weaken(mark, strength)).map((mark) => lower(mark, rise)),
    lines: lines.map(({ edge, y0, y1 }) => ({ edge, y0: y0 + rise, y1: y1 + rise })),
    flange,
    rivets: fitted.discs.length,
    stiffeners: fitted.hidden.length,
  };
}

function lower(mark: ReliefMark, by: number): ReliefMark {
  if (mark.kind === 'disc') return { ...mark, y: mark.y + by };
  return { ...mark, y0: mark.y0 + by, y1: mark.y1 + by };
}

// What lies along a side goes on past it.
function pastSides(lines: readonly EdgeLine[], depth: number, margin: number): readonly EdgeLine[] {
  return lines.map(({ edge, y0, y1 }) => ({
    edge,
    y0: edge.at === 0 ? y0 - margin : y0,
    y1: edge.at === depth ? y1 + margin : y1,
  }));
}

function weaken(mark: ReliefMark, strength: number): readonly ReliefMark[] {
  if (mark.kind === 'band' && mark.tone === 'paper') return [mark];
  if (strength === 0) return [];
  if (mark.kind === 'disc') return [{ ...mark, opacity: mark.opacity * strength }];
  return [{ ...mark, top: mark.top * strength, foot: mark.foot * strength }];
}
