import { boundsOfMark } from '../../page/bounds-of-mark.js';
import type { DrawnLine, DrawnShape } from '../../page/drawn.js';
import { mmPerInch } from '../../units/units.js';
import type { PageDrawing } from './page-picture.js';

// The renderer counts in 256ths of a dot, in 32 bits; half of that is left for where pages begin.
const mostReach = 2 ** 22;
// Each is drawn on its own, if only a dot long.
const mostDashes = 1_000_000;

/**
 * Tell what of a drawing cannot be drawn in dots, though it can be laid on a page of a PDF.
 *
 * @param drawing - What it shows.
 * @param dpi - Dots to the inch.
 * @returns Its words, or null.
 */
export function faultInDots(drawing: PageDrawing, dpi: number): string | null {
  const { marks, pictures } = drawing;
  const most = (mostReach * mmPerInch) / dpi;
  const none = { width: 0, height: 0 };
  let dashes = 0;
  for (const mark of marks) {
    const pixels = mark.kind === 'picture' ? pictures[mark.picture]!.pixels : none;
    const reach = Math.max(...Object.values(boundsOfMark(mark, pixels)).map(Math.abs));
    if (!(reach <= most)) {
      return `something that reaches ${Number((reach / 1000).toPrecision(3))} m off it, more than is drawn in dots`;
    }
    if (mark.kind === 'shape' && mark.line !== null) dashes += countDashes(mark, mark.line);
    if (dashes > mostDashes)
      return `lines of more dashes than are drawn in dots: over ${mostDashes}`;
  }
  return null;
}

// Near enough: along the points that curves bend to, and over gaps in the path.
function countDashes({ steps }: DrawnShape, { dashes }: DrawnLine): number {
  if (dashes.length === 0) return 0;
  const spots = steps.flatMap(([, ...numbers]) => numbers);
  let length = 0;
  for (let i = 2; i + 1 < spots.length; i += 2) {
    length += Math.hypot(spots[i]! - spots[i - 2]!, spots[i + 1]! - spots[i - 1]!);
  }
  return (length * dashes.length) / dashes.reduce((sum, dash) => sum + dash, 0);
}
