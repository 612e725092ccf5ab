import { moveMark } from '../../page/move-mark.js';
import { cutFigure } from './cut-figure.js';
import type { DrawnRelief } from './drawn-relief.js';
import { drawEdges, type RaisedOutline } from './draw-edges.js';
import { toLight } from './light-side.js';
import type { Figure } from './profiles/profile.js';
import type { ReliefPlan } from './relief-plan.js';
import { mapShades } from './map-shades.js';

/**
 * Draw what is no section: everything in it that stands out, or lies deeper, by its edges.
 *
 * @param plan - All that is known of the piece.
 * @param figure - What is seen of it.
 * @returns Its marks.
 * @throws RangeError where something in it is too narrow for its lines.
 */
export function drawFigure(plan: ReliefPlan, figure: Figure): DrawnRelief {
  const { outline, faces } = figure;
  const { length, sizes, margin, bleed, ratio, strength, sizedBy, around, card } = plan;
  const light = toLight(plan.light);
  // What is cut to shape casts no shadow on its own bleed.
  const isAlone = (face: RaisedOutline, i: number): boolean =>
    around === 0 && i === 0 && !face.isSunk;
  // Edges of what is cut to shape go on past it.
  const [past, pastHoles] = around > 0 ? [0, 0] : [margin, margin - bleed];
  const marks = faces.flatMap((face, i) =>
    drawEdges(isAlone(face, i) ? { ...face, rise: 0 } : face, {
      ...{ light, margin: past, holeMargin: pastHoles, ratio, named: sizedBy },
      ...(card !== null && { least: card }),
    }),
  );
  return {
    marks: marks
      .flatMap((mark) => mapShades(mark, (shade) => shade * strength))
      .map((mark) => moveMark(mark, around, around)),
    size: { x: length + 2 * around, y: sizes.depth + 2 * around },
    outline: around > 0 ? null : outline && { ...outline, isBled: false },
    at: { x: 0, y: 0 },
    length,
    place: (x, y) => ({ x, y }),
    cards: cutFigure(plan, figure),
    ...{ lines: [], flange: null, rivets: 0, stiffeners: 0, joints: 0 },
  };
}
