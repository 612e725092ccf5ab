import { attributeOf, attributesOf } from '../attributes-of.js';
import type { Drawing, DrawingAttribute, DrawingElement } from '../drawing.js';
import { cornersOf } from '../geometry/box.js';
import { clipBounds, type ClipBounds } from '../geometry/clip-box.js';
import { compose, identity, type Matrix, type Spot } from '../../numeric/matrix.js';
import { parseTransform } from '../geometry/parse-transform.js';
import type { Sheets } from '../style/read-sheets.js';
import { geometryIn, type PlacingStyle, referenceIn, styleOf } from '../style/style-of.js';

/** What holds for whatever stands inside an element. */
export interface Around {
  /** From user units to millimetres of paper. */
  readonly matrix: Matrix;
  /** What shares of it are shares of, in user units. */
  readonly viewport: { readonly width: number; readonly height: number };
  /** Four points each, in millimetres of paper, inside which all shows. */
  readonly clips: readonly (readonly Spot[])[];
  /** Why it cannot be told where things show, or null. */
  readonly doubt: string | null;
  /** Whether something is measured by the box of what is inside. */
  readonly boxMatters: boolean;
  /** Whether pixels are to be seen as squares. */
  readonly squares: boolean;
}

/** A drawing and what is found in it only once. */
export interface Scene {
  /** Read. */
  readonly drawing: Drawing;
  /** Its style sheets. */
  readonly sheets: Sheets;
  /** Bounds of each `clipPath` asked for so far, by its index. */
  readonly clips: Map<number, ClipBounds>;
}

/** An element, and what is set on it. */
export interface Styled {
  /** The element. */
  readonly element: DrawingElement;
  /** Its attributes. */
  readonly attributes: readonly DrawingAttribute[];
  /** What else places it. */
  readonly style: PlacingStyle;
}

/**
 * Look at what is set on an element.
 *
 * @param scene - Of the drawing.
 * @param element - Of it.
 * @returns The element with its attributes and style.
 */
export function styledIn(scene: Scene, element: DrawingElement): Styled {
  const attributes = attributesOf(scene.drawing, element);
  return { element, attributes, style: styleOf(element, attributes, scene.sheets) };
}

/**
 * Go into an element: its transform, its clip, and what else is set on it.
 *
 * @param scene - Of the drawing.
 * @param around - What holds outside it.
 * @param styled - The element.
 * @returns What holds inside it, its own viewport left out.
 */
export function enter(scene: Scene, around: Around, styled: Styled): Around {
  const { attributes, style } = styled;
  const stated = attributeOf(attributes, 'transform')?.value;
  const transform = stated === undefined ? identity : parseTransform(stated);
  const composed = transform === null ? null : composeOnto(around.matrix, transform);
  const matrix = composed?.every(Number.isFinite) === true ? composed : null;
  const inside = { ...around, matrix: matrix ?? around.matrix };
  const clip = clipOf(scene, inside, style.get('clip-path'));
  return {
    ...inside,
    clips: clip.corners === null ? around.clips : [...around.clips, clip.corners],
    boxMatters: around.boxMatters || clip.byBox || isSet(style, 'mask', 'filter'),
    squares: squaresOf(style.get('image-rendering')) ?? around.squares,
    doubt: around.doubt ?? doubtOf(matrix, style),
  };
}

// Most elements are moved by none.
function composeOnto(outer: Matrix, inner: Matrix): Matrix {
  return inner === identity ? outer : compose(outer, inner);
}

function doubtOf(matrix: Matrix | null, style: PlacingStyle): string | null {
  if (matrix === null) return 'a transform that makes no sense';
  const moved = geometryIn(style);
  return moved === undefined ? null : `a style that sets ${moved}`;
}

/**
 * Whether one of several properties is set to something.
 *
 * @param style - Of an element.
 * @param names - Of properties whose value may be `none`.
 * @returns Yes where one is.
 */
export function isSet(style: PlacingStyle, ...names: readonly string[]): boolean {
  return names.some((name) => (style.get(name) ?? 'none') !== 'none');
}

// Undefined where it stays as around.
function squaresOf(rendering: string | undefined): boolean | undefined {
  if (rendering === undefined || rendering === 'inherit') return undefined;
  return /pixelated|crisp|optimizespeed/i.test(rendering);
}

function clipOf(
  scene: Scene,
  { matrix }: Around,
  value: string | undefined,
): { readonly corners: readonly Spot[] | null; readonly byBox: boolean } {
  const reference = referenceIn(value);
  if (reference === null) return { corners: null, byBox: false };
  // A shape of CSS, measured by the box.
  if (reference === 'unknown') return { corners: null, byBox: true };
  const target = scene.drawing.byId.get(reference.id);
  if (target?.name !== 'clipPath') return { corners: null, byBox: false };
  let bounds = scene.clips.get(target.index);
  if (bounds === undefined) {
    bounds = clipBounds(scene.drawing, target, scene.sheets);
    scene.clips.set(target.index, bounds);
  }
  const { box, byBox } = bounds;
  if (box === null) return { corners: null, byBox };
  return { corners: cornersOf(compose(matrix, bounds.matrix), box), byBox };
}
