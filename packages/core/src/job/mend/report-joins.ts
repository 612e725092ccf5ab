import type { JudgedJoin } from '../../seam/mend/choose-join.js';
import type { PerAxis } from '../../surface/measurement.js';
import { toFigures } from '../to-figures.js';

type Joins = PerAxis<readonly JudgedJoin[] | null>;

/**
 * Report how well each way to join did.
 *
 * @param joins - As judged.
 * @returns The same, in as many figures as mean something.
 */
export function reportJoins(joins: Joins): Joins {
  const { x, y } = joins;
  return { x: x?.map(inFigures) ?? null, y: y?.map(inFigures) ?? null };
}

function inFigures({ method, step, contrast, ghost, score }: JudgedJoin): JudgedJoin {
  return {
    method,
    step: toFigures(step, 3),
    contrast: toFigures(contrast, 3),
    ghost: toFigures(ghost, 2),
    score: toFigures(score, 3),
  };
}
