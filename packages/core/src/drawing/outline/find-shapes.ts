import { attributeOf, attributesOf, targetOf } from '../attributes-of.js';
import { BadDrawing } from '../bad-drawing.js';
import {
  childrenOf,
  type Drawing,
  type DrawingAttribute,
  type DrawingElement,
  isSvg,
} from '../drawing.js';
import { compose, type Matrix } from '../geometry/matrix.js';
import { type Page, pageOf } from '../geometry/page.js';
import { toUnits } from '../geometry/parse-length.js';
import { type Around, enter, isSet, type Scene, type Styled } from '../places/around.js';
import { enterViewport } from '../places/enter-viewport.js';
import { readSheets, type Sheets } from '../style/read-sheets.js';
import { cascade, geometryIn, styleOf } from '../style/style-of.js';
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

const mostSteps = 50_000;
const groups = ['g', 'a', 'switch'];
const moving = ['animate', 'animateTransform', 'animateMotion', 'animateColor', 'set'];

// What tells whether a shape shows, and what of it is inside.
const looks = ['display', 'visibility', 'fill-rule'];
const wanted = { attributes: looks, isWanted: (name: string) => looks.includes(name) };

interface Step {
  readonly element: DrawingElement;
  readonly around: Around;
  readonly ids: readonly string[];
  readonly rule: DrawnShape['rule'];
  readonly isHidden: boolean;
  // Of the `use` that brought it in.
  readonly user: readonly DrawingAttribute[] | null;
  // Elements that are being used.
  readonly within: readonly DrawingElement[];
}

/**
 * Find every shape that a drawing shows, and how it lies on paper: every transform, viewBox, unit and
 * use on the way. Whatever is no shape is passed by.
 *
 * @param drawing - Read.
 * @returns What shows, and how large a unit is.
 * @throws BadDrawing where it uses itself without end.
 * @see SVG 2, 8: coordinate systems, transformations and units
 */
export function findShapes(drawing: Drawing): DrawnShapes {
  const { root } = drawing;
  const attributes = attributesOf(drawing, root);
  const page = pageOf(attributes);
  const scene = { drawing, sheets: readSheets(drawing), clips: new Map() };
  const lookSheets = readSheets(drawing, wanted.isWanted);
  const sized = geometryIn(styleOf(root, attributes, scene.sheets));
  const isMoving = drawing.elements.some((element) => isSvg(element, ...moving));
  const doubt =
    scene.sheets.doubt ??
    lookSheets.doubt ??
    (drawing.scripted ? 'a script' : null) ??
    (isMoving ? 'something that moves' : null) ??
    page.doubt ??
    (sized === undefined ? null : `a style that sets ${sized}`);
  const { matrix, viewport } = page;
  const around = { matrix, viewport, clips: [], doubt, boxMatters: false, squares: false };
  const walk = new Walk(scene, lookSheets);
  walk.run(root, around);
  return { shapes: walk.shapes, page };
}

class Walk {
  readonly shapes: DrawnShape[] = [];
  readonly #scene: Scene;
  readonly #looks: Sheets;
  readonly #waiting: Step[] = [];

  constructor(scene: Scene, lookSheets: Sheets) {
    this.#scene = scene;
    this.#looks = lookSheets;
  }

  // No recursion: how deep `use` leads is for the file to say.
  run(root: DrawingElement, around: Around): void {
    const look = cascade(this.#attributed(root), this.#looks, wanted);
    const nothing = { ids: [], rule: 'nonzero', isHidden: false, user: null, within: [] } as const;
    const first = { element: root, around, ...nothing };
    this.#pushChildren({ ...first, ...inherited(look, first) }, around);
    let steps = 0;
    for (let step = this.#waiting.pop(); step !== undefined; step = this.#waiting.pop()) {
      if (++steps > mostSteps) {
        throw new BadDrawing(`shows over ${mostSteps} elements through uses of one another`);
      }
      this.#take(step);
    }
  }

  #attributed(element: DrawingElement): {
    readonly element: DrawingElement;
    readonly attributes: readonly DrawingAttribute[];
  } {
    return { element, attributes: attributesOf(this.#scene.drawing, element) };
  }

  #take(step: Step): void {
    const { element } = step;
    if (!isSvg(element, ...shapeNames, ...groups, 'svg', 'symbol', 'use')) return;
    const own = this.#attributed(element);
    const look = cascade(own, this.#looks, wanted);
    if (look.get('display')?.trim() === 'none') return;
    const ids = element.id === null ? step.ids : [element.id, ...step.ids];
    const style = styleOf(element, own.attributes, this.#scene.sheets);
    const entered = enter(this.#scene, step.around, { ...own, style });
    const isCovered = isSet(style, 'clip-path', 'mask', 'filter');
    const doubt =
      entered.doubt ?? (isCovered ? 'a shape that is clipped, masked or filtered' : null);
    const inside = { ...step, ids, ...inherited(look, step), around: { ...entered, doubt } };
    this.#goInto(inside, { ...own, style });
  }

  #goInto(step: Step, styled: Styled): void {
    const { element, attributes } = styled;
    if (isSvg(element, ...shapeNames)) this.#add(step, step.around, attributes);
    else if (isSvg(element, 'use')) this.#follow(step, step.around, attributes);
    else if (isSvg(element, ...groups)) this.#pushChildren(step, step.around);
    else if (isSvg(element, 'svg') || step.user !== null) {
      const view = enterViewport(step.around, styled, step.user);
      if (view !== null) this.#pushChildren(step, view);
    }
  }

  #add(step: Step, around: Around, attributes: readonly DrawingAttribute[]): void {
    const { element, ids, rule, isHidden } = step;
    const { matrix, viewport, doubt } = around;
    if (isHidden) return;
    this.shapes.push({ element, attributes, ids, matrix, viewport, rule, doubt });
  }

  // Last first, for the last that waits is the next to be taken.
  #pushChildren(step: Step, around: Around): void {
    const children = [...childrenOf(this.#scene.drawing, step.element)];
    for (const element of children.toReversed()) {
      this.#waiting.push({ ...step, element, around, user: null });
    }
  }

  #follow(step: Step, around: Around, attributes: readonly DrawingAttribute[]): void {
    const target = targetOf(this.#scene.drawing, attributes);
    if (target === undefined || step.within.includes(target) || holds(target, step.element)) return;
    const { width, height } = around.viewport;
    const x = toUnits(attributeOf(attributes, 'x')?.value, width, 0);
    const y = toUnits(attributeOf(attributes, 'y')?.value, height, 0);
    const isOdd = x === null || y === null;
    this.#waiting.push({
      ...step,
      element: target,
      around: {
        ...around,
        matrix: compose(around.matrix, [1, 0, 0, 1, x ?? 0, y ?? 0]),
        doubt: around.doubt ?? (isOdd ? 'a place in units that have no size' : null),
      },
      user: attributes,
      within: [...step.within, target],
    });
  }
}

function holds(outer: DrawingElement, inner: DrawingElement): boolean {
  return inner.index >= outer.index && inner.index <= outer.last;
}

function inherited(
  look: ReadonlyMap<string, string>,
  { rule, isHidden }: Pick<Step, 'rule' | 'isHidden'>,
): Pick<Step, 'rule' | 'isHidden'> {
  const stated = look.get('fill-rule')?.trim();
  const seen = look.get('visibility')?.trim();
  return {
    rule: stated === 'evenodd' || stated === 'nonzero' ? stated : rule,
    isHidden: seen === undefined || seen === 'inherit' ? isHidden : seen !== 'visible',
  };
}
