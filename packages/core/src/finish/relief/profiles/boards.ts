import { leastLine } from '../pens.js';
import type { Stretch } from './profile.js';

/**
 * Part a depth into boards of one width; what is left at the foot is a narrower one, or, where that would hold
 * no lines, goes to the last.
 *
 * @param depth - Mm of paper.
 * @param board - Width of each.
 * @returns From the top to the foot: at least one.
 */
export function partBoards(depth: number, board: number): readonly Stretch[] {
  const whole = Math.max(1, Math.floor(depth / board + 1e-9));
  const isMore = depth - whole * board >= 3 * leastLine;
  const count = whole + (isMore ? 1 : 0);
  return Array.from({ length: count }, (_, i) => ({
    y0: i * board,
    y1: i === count - 1 ? depth : (i + 1) * board,
  }));
}
