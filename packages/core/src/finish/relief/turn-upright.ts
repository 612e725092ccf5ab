import type { ReliefMark } from '../../page/relief-mark.js';
import type { DrawnRelief } from './drawn-relief.js';
import type { LightSide } from './light-side.js';
import type { ReliefPlan } from './relief-plan.js';

// From the left is from above, once what lies from left to right runs down.
const turned: Readonly<Record<LightSide, LightSide>> = {
  above: 'left',
  below: 'right',
  left: 'above',
  right: 'below',
  'above-left': 'above-left',
  'above-right': 'below-left',
  'below-left': 'above-right',
  'below-right': 'below-right',
};

/**
 * Lay boards that stand on their side, down and right exchanged, for whoever draws those that lie.
 *
 * @param plan - Of boards that stand, or of anything else.
 * @returns Of boards that lie; anything else as it is.
 */
export function layDown(plan: ReliefPlan): ReliefPlan {
  if (!plan.isUpright) return plan;
  return {
    ...plan,
    sizes: { ...plan.sizes, depth: plan.length },
    sizedBy: 'length',
    length: plan.sizes.depth,
    light: turned[plan.light],
    isUpright: false,
  };
}

/**
 * Stand boards up again.
 *
 * @param drawn - As they were drawn on their side.
 * @returns As they stand: none of their lines is level.
 */
export function standUp(drawn: DrawnRelief): DrawnRelief {
  const { size } = drawn;
  return {
    ...drawn,
    marks: drawn.marks.map(turn),
    size: { x: size.y, y: size.x },
    length: size.y,
    place: (x, y) => ({ x, y }),
    lines: [],
  };
}

// Of boards every mark is a band of one shade.
function turn(mark: ReliefMark): ReliefMark {
  if (mark.kind !== 'band') return mark;
  return { ...mark, x0: mark.y0, x1: mark.y1, y0: mark.x0, y1: mark.x1 };
}
