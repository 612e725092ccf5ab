import { outOfRange } from '../../errors/out-of-range.js';
import { inBoth, leastInBoth } from './in-both.js';
import { leastLine, widestLine } from './pens.js';
import type { ProfileEdge, ProfileShape } from './profiles/profile.js';
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
  const { ratio, sizedBy } = plan;
  const { depth } = plan.sizes;
  const lines = shape.edges.map(layLine);
  const short = lines.reduce((most, line, i) => {
    const above = lines[i - 1];
    return above === undefined ? most : Math.max(most, missingBetween(above, line));
  }, 0);
  if (short <= slack) return lines;
  const wanted = `a depth of ${leastInBoth(depth + short, ratio)} or more, so that its lines stay apart,`;
  throw outOfRange(wanted, sizedBy, inBoth(depth, ratio));
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
