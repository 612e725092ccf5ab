import { type CutCard, listShown, nameCards, toCard } from './cut-cards.js';
import { type BoundedArea, faceLoops } from './face-loops.js';
import { rectangle } from './profiles/flat-face.js';
import type { Figure, StandingArea } from './profiles/profile.js';
import type { ReliefPlan } from './relief-plan.js';

const near = 1e-6;

/**
 * Cut layers of card for what is no section. Bleed is past the outer edges of the whole alone.
 *
 * @param plan - All that is known of the piece.
 * @param figure - What is seen of it.
 * @returns From the back to the front; none unless asked for.
 */
export function cutFigure(plan: ReliefPlan, figure: Figure): readonly CutCard[] {
  const shown = listShown(figure, plan);
  return nameCards(plan).flatMap((named) => {
    const area = shown[named.level - 1];
    return area === undefined ? [] : [toCard(named, boundsOf(area, plan))];
  });
}

function boundsOf({ isCutOut, loops, rule }: StandingArea, plan: ReliefPlan): BoundedArea {
  const { length, sizes, around, margin } = plan;
  const [wide, high] = [length + 2 * around, sizes.depth + 2 * around];
  // What reaches a side of the page goes on past it.
  const moved = loops.map((loop) =>
    loop.map((mm, i) => {
      const side = i % 2 === 0 ? wide : high;
      const at = mm + around;
      return at <= near ? -margin : at >= side - near ? side + margin : at;
    }),
  );
  if (!isCutOut) return { loops: moved, rule };
  const page = rectangle(-margin, -margin, wide + 2 * margin, high + 2 * margin);
  // Each has what it bounds on its right: turned about, that is left out.
  const left = faceLoops({ loops: moved, rule }).map(({ points }) =>
    Float64Array.from(points.toReversed().flatMap(({ x, y }) => [x, y])),
  );
  return { loops: [page, ...left], rule: 'nonzero' };
}
