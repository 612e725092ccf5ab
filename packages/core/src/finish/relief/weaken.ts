import type { ReliefMark } from '../../page/relief-mark.js';

/**
 * Make a mark weaker; bare paper stays bare.
 *
 * @param mark - As strong as it can be.
 * @param strength - 0, which leaves nothing of it, to 1.
 * @returns What is left.
 */
export function weaken(mark: ReliefMark, strength: number): readonly ReliefMark[] {
  if (mark.kind === 'band' && mark.tone === 'paper') return [mark];
  if (strength === 0) return [];
  if (mark.kind === 'disc') return [{ ...mark, opacity: mark.opacity * strength }];
  if (mark.kind === 'band') {
    return [{ ...mark, top: mark.top * strength, foot: mark.foot * strength }];
  }
  const weaker = mark.pieces.map((piece) => ({
    ...piece,
    stops: piece.stops.map(({ at, shade }) => ({ at, shade: shade * strength })),
  }));
  return [{ ...mark, pieces: weaker }];
}
