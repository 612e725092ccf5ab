import type { DrawnArea } from '../../page/drawn.js';
import { attributeOf } from '../attributes-of.js';
import type { BadDrawing } from '../bad-drawing.js';
import { childrenOf, type Drawing, type DrawingElement, isSvg } from '../drawing.js';
import { compose, type Matrix } from '../../numeric/matrix.js';
import { parseTransform } from '../geometry/parse-transform.js';
import { shapeNames } from '../outline/follow-shape.js';
import { type Scene, type Styled, styledIn } from '../places/around.js';
import type { Sheets } from '../style/read-sheets.js';
import { cascade, referenceIn } from '../style/style-of.js';
import { carryPaint, type Paint, painting, unpainted } from './paint.js';
import { refuseMark, ruleOf } from './trace.js';
import type { Tracer } from './tracer.js';

/** What is clipped, and where. */
export interface ClippedElement {
  /** The element that says so. */
  readonly styled: Styled;
  /** From its user units to mm of the part. */
  readonly matrix: Matrix;
  /** What traces it. */
  readonly tracer: Tracer;
}

// A clip that is measured by shares is refused: its figures come out as no numbers.
const noViewport = { width: NaN, height: NaN };

/**
 * Tell what a clip of one plain shape lets through: of several the sum is no one path.
 *
 * @param scene - Of the drawing.
 * @param sheets - Its style sheets, read for what is painted.
 * @param clipped - The element that it is for.
 * @returns What shows, in mm of the part.
 * @throws BadDrawing where it is any other clip.
 */
export function clipArea(scene: Scene, sheets: Sheets, clipped: ClippedElement): DrawnArea {
  const { styled, matrix, tracer } = clipped;
  const fault = (what: string): BadDrawing => refuseMark(styled.element, `is clipped by ${what}`);
  const clip = clipOf(scene.drawing, styled);
  if (clip === null) throw fault('what is no clipPath');
  const own = styledIn(scene, clip);
  const units = attributeOf(own.attributes, 'clipPathUnits')?.value.trim();
  if (units === 'objectBoundingBox') throw fault('its own box');
  const child = onlyChild(scene.drawing, clip);
  const inner = child === null ? null : styledIn(scene, child);
  const paint = inner === null ? null : paintOf([own, inner], sheets);
  if (inner === null || paint === null) throw fault('more than one plain shape');
  const moved = [own, inner].map(({ attributes }) =>
    parseTransform(attributeOf(attributes, 'transform')?.value ?? ''),
  );
  let whole = matrix;
  for (const one of moved) {
    if (one === null) throw fault('what a transform makes no sense of');
    whole = compose(whole, one);
  }
  const steps = tracer.trace(inner, noViewport);
  return { steps, matrix: whole, rule: ruleOf(paint, 'clip-rule') };
}

function clipOf(drawing: Drawing, { style }: Styled): DrawingElement | null {
  const reference = referenceIn(style.get('clip-path'));
  if (reference === null || reference === 'unknown') return null;
  const clip = drawing.byId.get(reference.id);
  return clip?.name === 'clipPath' ? clip : null;
}

function onlyChild(drawing: Drawing, clip: DrawingElement): DrawingElement | null {
  const children = [...childrenOf(drawing, clip)].filter(
    (child) => !isSvg(child, 'title', 'desc', 'metadata'),
  );
  const [child] = children;
  const isOne = children.length === 1 && child !== undefined;
  return isOne && shapeNames.includes(child.name) ? child : null;
}

// Null where one of them is clipped itself, or nothing of it counts.
function paintOf(styled: readonly Styled[], sheets: Sheets): Paint | null {
  let paint: Paint | undefined = unpainted;
  for (const one of styled) {
    if (one.style.size > 0) return null;
    paint = carryPaint(cascade(one, sheets, painting), paint);
    if (paint === undefined) return null;
  }
  return paint.isHidden ? null : paint;
}
