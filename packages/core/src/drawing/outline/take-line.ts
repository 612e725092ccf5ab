import type { Outcome } from '../../errors/outcome.js';
import type { Drawing } from '../drawing.js';
import { findShapes } from './find-shapes.js';
import { followLines, shapeNames } from './follow-shape.js';
import type { FollowedLine } from './loop-maker.js';
import { ownNames, type Refusal, sizeless, type TakeOutlineOptions } from './take-outline.js';

/** A line of a drawing, at its size on paper. */
export interface DrawnLine extends FollowedLine {
  /** Its id, or null. */
  readonly id: string | null;
}

const names = [...shapeNames, 'line'];
const mostNamed = 12;

/**
 * Take a line from a drawing: its one path, or one of a name, open or closed. What is drawn along it, how
 * wide and in what colour, is left out of account.
 *
 * @param drawing - Read.
 * @param options - Which, and how true.
 * @returns It, or why there is none: words that follow the drawing's name.
 * @throws BadDrawing where a shape makes no sense.
 */
export function takeLine(
  drawing: Drawing,
  options: TakeOutlineOptions,
): Outcome<DrawnLine, 'no-outline' | 'no-print-size'> {
  const { id, tolerance } = options;
  const { shapes, page } = findShapes(drawing, names);
  if (!page.isTrue) return sizeless();
  const meant = id === undefined ? shapes : shapes.filter(({ ids }) => ids.includes(id));
  const where = id === undefined ? '' : ` in #${id}`;
  const found = meant.flatMap((shape) =>
    followLines({ ...shape, name: shape.element.name }, tolerance).map((line) => ({ shape, line })),
  );
  const [only] = found;
  if (only === undefined) {
    if (id !== undefined && !drawing.byId.has(id)) {
      const known = named(shapes).join(', ');
      return refuse(
        `holds nothing with the id ${id}`,
        known === ''
          ? 'give the path an id in the drawing program'
          : `lines that it shows: ${known}`,
      );
    }
    return refuse(`holds no line${where}`, 'draw one path that is not hidden');
  }
  if (found.length > 1) {
    const list = named(found.map(({ shape }) => shape));
    const listed = list.length === 0 ? '' : `: ${list.join(', ')}`;
    return refuse(
      `holds ${found.length} lines${where} and a piece follows one${listed}`,
      `name the one that it follows, of one stroke: --along FILE.svg${list[0] ?? '#arch'}`,
    );
  }
  const { doubt, element } = only.shape;
  if (doubt !== null) {
    return refuse(`holds ${doubt}, so that its line cannot be told`, 'save it as plain SVG');
  }
  return { ok: true, value: { id: element.id, ...only.line }, warnings: [] };
}

function refuse(message: string, hint: string): Refusal {
  return { ok: false, code: 'no-outline', message, hint };
}

function named(shapes: Parameters<typeof ownNames>[0]): readonly string[] {
  const own = [...new Set(ownNames(shapes).flatMap((name) => (name === null ? [] : [`#${name}`])))];
  const more = own.length - mostNamed;
  return more > 0 ? [...own.slice(0, mostNamed), `${more} more`] : own;
}
