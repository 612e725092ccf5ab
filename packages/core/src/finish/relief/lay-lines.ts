import { outOfRange } from '../../errors/out-of-range.js';
import { inBoth, leastInBoth } from './in-both.js';
import { leastLine, widestLine } from './pens.js';
import type { ProfileEdge, ProfileShape, SectionSizes } from './profiles/profile.js';
import type { ReliefPlan } from './relief-plan.js';

/** Where an edge is drawn light or dark. */
export interface EdgeLine {
  /** What it lies along. */
  readonly edge: ProfileEdge;
  /** Its top, mm of paper from that of the section. */
  readonly y0: number;
  /** Its foot. */
  readonly y1: number;
}

// What the last digits of numbers make of lines that meet.
const slack = 1e-9;

/**
 * Lay a line along each edge, none thinner than prints and none over another.
 *
 * @param shape - A section as it is seen, in mm of paper.
 * @param plan - How deep it is, and what says so.
 * @returns The lines, from the top to the foot.
 * @throws RangeError where the section is not deep enough for them.
 */
export function layLines(shape: ProfileShape, plan: ReliefPlan): readonly EdgeLine[] {
  const { ratio, sizedBy, sizes } = plan;
  const lines = shape.edges.map(layLine);
  // For each size that parts two lines, the most that it is short of.
  const short = new Map<keyof SectionSizes, number>();
  lines.forEach((line, i) => {
    const above = lines[i - 1];
    if (above === undefined) return;
    const by = line.edge.partedBy ?? 'depth';
    const missing = missingBetween(above, line);
    if (missing > slack) short.set(by, Math.max(short.get(by) ?? 0, missing));
  });
  for (const [by, missing] of short) {
    const size = sizes[by] ?? 0;
    const wanted = `a ${by} of ${leastInBoth(size + missing, ratio)} or more, so that its lines stay apart,`;
    throw outOfRange(wanted, by === 'depth' ? sizedBy : by, inBoth(size, ratio));
  }
  return lines;
}

function layLine(edge: ProfileEdge): EdgeLine {
  const { at, side, room } = edge;
  const thick = room === null ? leastLine : Math.min(widestLine, Math.max(leastLine, room));
  return side === 'below' ? { edge, y0: at, y1: at + thick } : { edge, y0: at - thick, y1: at };
}

// Two lines of one face, between two edges, leave some of it; others have an edge between them.
function missingBetween(above: EdgeLine, below: EdgeLine): number {
  const isOneFace = above.edge.side === 'below' && below.edge.side === 'above';
  return above.y1 + (isOneFace ? leastLine : 0) - below.y0;
}
