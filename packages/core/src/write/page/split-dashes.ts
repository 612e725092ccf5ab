import type { DrawnMark, DrawnShape, PathStep } from '../../page/drawn.js';
import type { PageDrawing } from './page-picture.js';

/**
 * Make a mark of each line that is dashed, where a path holds many: the renderer makes all dashes of a path anew for
 * each tile that shows some of it.
 *
 * @param drawing - What a part shows.
 * @returns The same to the eye: dashes begin anew with each line of a path.
 */
export function splitDashes(drawing: PageDrawing): PageDrawing {
  return {
    ...drawing,
    marks: drawing.marks.flatMap((mark): readonly DrawnMark[] =>
      isDashed(mark) ? linesOf(mark.steps).map((steps) => ({ ...mark, steps })) : [mark],
    ),
  };
}

// Where lines of one path cross, what is seen through shows once.
function isDashed(mark: DrawnMark): mark is DrawnShape {
  if (mark.kind === 'picture' || mark.fill !== null || mark.line === null) return false;
  return mark.line.dashes.length > 0 && mark.line.opacity === 1;
}

function linesOf(steps: DrawnShape['steps']): readonly (readonly PathStep[])[] {
  const lines: PathStep[][] = [];
  for (const [i, step] of steps.entries()) {
    // One that goes on from where it was closed, without a step there, stays whole.
    if (step[0] !== 'M' && (i === 0 || steps[i - 1]?.[0] === 'Z')) return [steps];
    if (step[0] === 'M') lines.push([]);
    lines.at(-1)?.push(step);
  }
  return lines;
}
