import { toBend } from '../../finish/relief/bend.js';
import { rectangle } from '../../finish/relief/profiles/flat-face.js';
import type { DrawnPiece } from '../relief/plan-relief.js';
import type { ReliefStep } from './build-plan.js';

// Mm of paper: of as many dots as a piece needs, and on any page.
const side = 20;

/**
 * Stand in for what a drawing says of a piece, while it is not read yet.
 *
 * @param options - Whether there is one.
 * @returns A line, or a square.
 */
export function anyDrawn(options: ReliefStep['options']): DrawnPiece {
  const { along, outline } = options;
  const loops = [rectangle(0, 0, side, side)];
  return {
    bend:
      along === undefined
        ? null
        : toBend({ points: Float64Array.of(0, 0, side, 0), isClosed: false }),
    shape:
      outline === undefined
        ? null
        : { area: { loops, rule: 'nonzero' }, size: { x: side, y: side } },
  };
}
