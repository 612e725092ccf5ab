import { outOfRange } from '../../errors/out-of-range.js';
import { inBoth, leastInBoth } from './in-both.js';
import { inks, leastLine } from './pens.js';
import type { Stretch } from './profiles/profile.js';
import type { ReliefPlan } from './relief-plan.js';
import type { ReliefStrip } from './relief-strip.js';
import { layDown } from './turn-upright.js';

/**
 * Draw the gaps where boards end against one another, every other row half a board on.
 *
 * @param plan - How long boards are.
 * @param boards - From the top to the foot.
 * @returns A dark strip each; none where boards are longer than the piece.
 * @throws RangeError where boards are too short, or there are none.
 */
export function buttJoints(plan: ReliefPlan, boards: readonly Stretch[]): readonly ReliefStrip[] {
  const { boardLength, length, ratio, profile } = plan;
  if (boardLength === null) return [];
  if (boards.length === 0) {
    throw outOfRange('a profile of boards (planks, weatherboard)', 'boardLength', profile.name);
  }
  const least = 6 * leastLine;
  if (boardLength < least) {
    const wanted = `${leastInBoth(least, ratio)} or more, so that joints stay apart,`;
    throw outOfRange(wanted, 'boardLength', inBoth(boardLength, ratio));
  }
  const half = leastLine / 2;
  return boards.flatMap(({ y0, y1 }, row) => {
    const first = row % 2 === 0 ? boardLength : boardLength / 2;
    const count = Math.max(0, Math.ceil((length - 3 * leastLine - first) / boardLength));
    return Array.from({ length: count }, (_, i): ReliefStrip => {
      const x = first + i * boardLength;
      return {
        ...{ x0: x - half, x1: x + half, isPaper: false },
        lit: () => ({ y0, y1, top: -inks.gap, foot: -inks.gap }),
      };
    });
  });
}

/**
 * Refuse boards that end nowhere within a piece.
 *
 * @param plan - How long boards are.
 * @param joints - How many joints it came to.
 * @throws RangeError where those are none, though boards have a length.
 */
export function refuseUnended(plan: ReliefPlan, joints: number): void {
  const { boardLength, length, ratio, profile, sizes } = layDown(plan);
  if (boardLength === null || joints > 0) return;
  const rows = profile.shape(sizes).boards?.length === 1 ? 1 : 2;
  const most = `up to ${inBoth(rows * (length - 4 * leastLine), ratio)}, so that boards end within the ${plan.isUpright ? 'depth' : 'length'},`;
  throw outOfRange(most, 'boardLength', inBoth(boardLength, ratio));
}
