/** Whether each joint is the strongest line about, stretch by stretch across. */
export interface JointGrid {
  /** Stretches. */
  readonly stretches: number;
  /** Joints. */
  readonly joints: number;
  /** `stretches * joints` cells, joints fastest: 1 it is, 0 it is not, -1 not in the photo. */
  readonly wins: Int8Array;
}

/** Cells either way that tell of one whether it is hidden. */
const about = 2;
/** Share of them that are joints, under which it is; chance makes a fifth. */
const leastAbout = 0.45;
/** So many of the rest must be joints: a texture with what is missing left out is no wall. */
const leastWins = 0.8;
/** Share of all that must be left to tell. */
const leastShare = 0.4;

/**
 * Leave out where windows, pipes or ivy hide the joints, if all else is plainly joints.
 *
 * @param grid - Of the joints.
 * @returns For each cell 1 where it tells of the joints, 0 where it does not.
 */
export function keepShown(grid: JointGrid): Uint8Array {
  const { wins } = grid;
  const inPhoto = Uint8Array.from(wins, (win) => (win >= 0 ? 1 : 0));
  const shown = inPhoto.map((is, i) => (is === 1 && !isHidden(grid, i) ? 1 : 0));
  let [all, left, won] = [0, 0, 0];
  for (let i = 0; i < wins.length; i++) {
    all += inPhoto[i]!;
    left += shown[i]!;
    if (shown[i] === 1) won += wins[i]!;
  }
  return left >= leastShare * all && won >= leastWins * left ? shown : inPhoto;
}

function isHidden({ stretches, joints, wins }: JointGrid, cell: number): boolean {
  const k = cell % joints;
  const s = (cell - k) / joints;
  let [won, count] = [0, 0];
  for (let t = Math.max(0, s - about); t <= Math.min(stretches - 1, s + about); t++) {
    for (let j = Math.max(0, k - about); j <= Math.min(joints - 1, k + about); j++) {
      const win = wins[t * joints + j]!;
      if (win < 0) continue;
      won += win;
      count++;
    }
  }
  return won < leastAbout * count;
}
