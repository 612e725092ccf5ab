import type { AxisPlan } from '../../fill/plan-tile.js';
import type { Joints } from '../../seam/mend/see-joints.js';
import type { PerAxis } from '../../surface/measurement.js';

/** What of a plan says how large the worked picture comes to be in dots. */
export type DotsPlan = Pick<AxisPlan, 'period' | 'copies' | 'workPeriod'>;

/**
 * Say which dot of a tile lies on the datum: where its first bed joint comes to lie.
 *
 * @param joints - In pixels of the picture that was worked on, or null.
 * @param plan - How many dots those come to.
 * @param start - Where the tile begins in that picture.
 * @returns The dot, seldom whole.
 */
export function placeOrigin(
  joints: Pick<Joints, 'axis' | 'offset'> | null,
  plan: PerAxis<DotsPlan>,
  start: PerAxis<number>,
): PerAxis<number> {
  if (joints === null) return placeJoint(-start.y, 'y', plan);
  return placeJoint(joints.offset - start[joints.axis], joints.axis, plan);
}

function placeJoint(joint: number, axis: 'x' | 'y', plan: PerAxis<DotsPlan>): PerAxis<number> {
  const { period, copies, workPeriod } = plan[axis];
  return { x: 0, y: 0, [axis]: (joint * period) / (copies * workPeriod) };
}
