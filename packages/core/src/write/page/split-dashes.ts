import type { DrawnMark, DrawnShape } from '../../page/drawn.js';
import type { PageDrawing } from './page-picture.js';

/**
 * Make a mark of each line that is dashed, where a path holds many: the renderer makes all dashes of a path anew for
 * each tile that shows some of it.
 *
 * @param drawing - What a part shows.
 * @returns The same to the eye: dashes begin anew with each line of a path.
 */
export function splitDashes(drawing: PageDrawing): PageDrawing {
  return { ...drawing, marks: drawing.marks.flatMap(split) };
}

function split(mark: DrawnMark): readonly DrawnMark[] {
  if (mark.kind === 'picture' || mark.fill !== null) return [mark];
  // Where lines of one path cross, what is seen through shows once.
  if (mark.line === null || mark.line.dashes.length === 0 || mark.line.opacity < 1) return [mark];
  const lines: DrawnShape['steps'][number][][] = [];
  for (const step of mark.steps) {
    // After a path is closed it may go on from where it began, without a step there.
    if (step[0] !== 'M' && lines.length === 0) return [mark];
    if (step[0] !== 'M' && lines.at(-1)?.at(-1)?.[0] === 'Z') return [mark];
    if (step[0] === 'M') lines.push([]);
    lines.at(-1)?.push(step);
  }
  return lines.map((steps) => ({ ...mark, steps }));
}
