import { BadDrawing } from '../bad-drawing.js';
import type { Drawing, DrawingAttribute, DrawingElement } from '../drawing.js';
import type { Matrix } from '../../numeric/matrix.js';
import { type Page, pageOf } from '../geometry/page.js';
import { type Around, isSet, type Scene, type Styled, styledIn } from '../places/around.js';
import { doubtOfDrawing } from '../places/doubt-of-drawing.js';
import { type Visit, walkDrawing } from '../places/walk-drawing.js';
import { readSheets } from '../style/read-sheets.js';
import { isHidden } from '../style/is-hidden.js';
import { cascade } from '../style/style-of.js';
import { shapeNames } from './follow-shape.js';

/** One place at which a shape of a drawing shows. */
export interface DrawnShape {
  /** The element. */
  readonly element: DrawingElement;
  /** Its attributes. */
  readonly attributes: readonly DrawingAttribute[];
  /** Its own id and those of all that it stands in or is used by, from the innermost. */
  readonly ids: readonly string[];
  /** From its units to mm of paper. */
  readonly matrix: Matrix;
  /** What shares of it are shares of. */
  readonly viewport: Around['viewport'];
  /** What of it is inside. */
  readonly rule: 'nonzero' | 'evenodd';
  /** Why its shape cannot be told, or null. */
  readonly doubt: string | null;
}

/** The shapes that a drawing shows. */
export interface DrawnShapes {
  /** In the order in which they are drawn. */
  readonly shapes: readonly DrawnShape[];
  /** How it lies on paper. */
  readonly page: Page;
}

// What tells whether a shape shows, and what of it is inside.
const looks = ['display', 'visibility', 'fill-rule'];
const wanted = { attributes: looks, isWanted: (name: string) => looks.includes(name) };

// What is carried from outside in.
interface Look {
  readonly ids: readonly string[];
  readonly rule: DrawnShape['rule'];
  readonly isHidden: boolean;
  readonly isCovered: boolean;
}

const initial: Look = { ids: [], rule: 'nonzero', isHidden: false, isCovered: false };

/**
 * Find every shape that a drawing shows, and how it lies on paper: every transform, viewBox, unit and
 * use on the way. Whatever is no shape is passed by.
 *
 * @param drawing - Read.
 * @param names - Of elements that count; those that bound an area unless told.
 * @returns What shows, and how large a unit is.
 * @throws BadDrawing where it uses itself without end.
 * @see SVG 2, 8: coordinate systems, transformations and units
 */
export function findShapes(drawing: Drawing, names: readonly string[] = shapeNames): DrawnShapes {
  const scene: Scene = { drawing, sheets: readSheets(drawing), clips: new Map() };
  const sheets = readSheets(drawing, wanted.isWanted);
  const root = styledIn(scene, drawing.root);
  const page = pageOf(root.attributes);
  const doubt = scene.sheets.doubt ?? sheets.doubt ?? doubtOfDrawing(scene, root, page);
  const { matrix, viewport } = page;
  const lookAt = (styled: Styled): ReadonlyMap<string, string> => cascade(styled, sheets, wanted);
  const shapes: DrawnShape[] = [];
  const isWhole = walkDrawing<Look>(scene, {
    names,
    around: { matrix, viewport, clips: [], doubt, boxMatters: false, squares: false },
    own: { ...initial, ...inherited(lookAt(root), initial) },
    enter: (styled, outer) => carry(styled, lookAt(styled), outer),
    take: (visit) => {
      if (!visit.own.isHidden) shapes.push(toShape(visit));
    },
  });
  if (!isWhole) {
    throw new BadDrawing('uses its own elements more often than anybody draws');
  }
  return { shapes, page };
}

function carry(
  { element, style }: Styled,
  look: ReadonlyMap<string, string>,
  outer: Look,
): Look | undefined {
  if (look.get('display')?.trim() === 'none') return undefined;
  return {
    ...inherited(look, outer),
    ids: element.id === null ? outer.ids : [element.id, ...outer.ids],
    isCovered: outer.isCovered || isSet(style, 'clip-path', 'mask', 'filter'),
  };
}

function inherited(
  look: ReadonlyMap<string, string>,
  outer: Look,
): Pick<Look, 'rule' | 'isHidden'> {
  const stated = look.get('fill-rule')?.trim();
  return {
    rule: stated === 'evenodd' || stated === 'nonzero' ? stated : outer.rule,
    isHidden: isHidden(look.get('visibility'), outer.isHidden),
  };
}

function toShape({ styled, around, own }: Visit<Look>): DrawnShape {
  const { element, attributes } = styled;
  const { matrix, viewport } = around;
  const { ids, rule, isCovered } = own;
  const doubt = around.doubt ?? (isCovered ? 'a shape that is clipped, masked or filtered' : null);
  return { element, attributes, ids, matrix, viewport, rule, doubt };
}
