import { attributeOf } from '../attributes-of.js';
import type { DrawingAttribute } from '../drawing.js';
import type { Box } from './box.js';
import { fitView, parseAspect, parseViewBox } from './fit-view.js';
import { identity, type Matrix } from '../../numeric/matrix.js';
import { parseLength } from './parse-length.js';

/** How a drawing lies on its page. */
export interface Page {
  /** From the root's user units to millimetres of paper. */
  readonly matrix: Matrix;
  /** The page in millimetres, or null where it has no bounds. */
  readonly box: Box | null;
  /** What shares are shares of, in user units. */
  readonly viewport: { readonly width: number; readonly height: number };
  /** Whether its size is stated in units that paper has. */
  readonly isTrue: boolean;
  /** Why it cannot be told, or null. */
  readonly doubt: string | null;
}

const mmPerPx = 25.4 / 96;

// Drawing programs have taken a bare number for 1/96, 1/90 and 1/72 of an inch. The largest costs a
// few pixels too many and loses none.
const largestMmPerPx = 25.4 / 72;

interface Stated {
  readonly px: number;
  readonly isTrue: boolean;
}

function sizeOf(attributes: readonly DrawingAttribute[], name: string): Stated | null {
  const length = parseLength(attributeOf(attributes, name)?.value ?? '');
  if (length === null || length.kind === '%' || !(length.value > 0)) return null;
  return { px: length.value, isTrue: length.kind === 'true' };
}

/**
 * Work out how a drawing lies on paper.
 *
 * @param attributes - Of its root.
 * @returns Its page.
 * @see SVG 2, 8: coordinate systems; CSS Values and Units Module Level 3, 6.2
 */
export function pageOf(attributes: readonly DrawingAttribute[]): Page {
  const [width, height] = [sizeOf(attributes, 'width'), sizeOf(attributes, 'height')];
  const boxText = attributeOf(attributes, 'viewBox')?.value;
  const view = boxText === undefined ? null : parseViewBox(boxText);
  const aspect = parseAspect(attributeOf(attributes, 'preserveAspectRatio')?.value);
  const doubt = doubtOf(attributes, boxText !== undefined && view === null, aspect === null);
  const isTrue = [width, height].some((one) => one?.isTrue) && !isLoose(width) && !isLoose(height);
  const mm = isTrue ? mmPerPx : largestMmPerPx;
  const told = { isTrue, doubt };
  const px = wholeSize(width, height, view);
  if (px === null) {
    const viewport = { width: 100, height: 100 };
    return { matrix: scaled(identity, mm), box: null, viewport, ...told };
  }
  const box = { x0: 0, y0: 0, x1: px.width * mm, y1: px.height * mm };
  if (view === null) return { matrix: scaled(identity, mm), box, viewport: px, ...told };
  const into = { x0: 0, y0: 0, x1: px.width, y1: px.height };
  const viewport = sizeOfBox(view);
  return { matrix: scaled(fitView(view, into, aspect ?? middle), mm), box, viewport, ...told };
}

function isLoose(side: Stated | null): boolean {
  return side !== null && !side.isTrue;
}

function sizeOfBox({ x0, y0, x1, y1 }: Box): Page['viewport'] {
  return { width: x1 - x0, height: y1 - y0 };
}

const middle = { x: 0.5, y: 0.5, fit: 'meet' } as const;

function scaled(matrix: Matrix, by: number): Matrix {
  const [a, b, c, d, e, f] = matrix;
  return [a * by, b * by, c * by, d * by, e * by, f * by];
}

// A side that is not stated follows from the other, by the shape of the viewBox.
function wholeSize(
  width: Stated | null,
  height: Stated | null,
  view: Box | null,
): { width: number; height: number } | null {
  const stated = { width: width?.px ?? null, height: height?.px ?? null };
  if (stated.width !== null && stated.height !== null) {
    return { width: stated.width, height: stated.height };
  }
  if (view === null) return null;
  const shape = sizeOfBox(view);
  if (stated.width !== null) {
    return { width: stated.width, height: (stated.width * shape.height) / shape.width };
  }
  if (stated.height === null) return shape;
  return { width: (stated.height * shape.width) / shape.height, height: stated.height };
}

function doubtOf(
  attributes: readonly DrawingAttribute[],
  badView: boolean,
  badAspect: boolean,
): string | null {
  for (const name of ['width', 'height']) {
    const text = attributeOf(attributes, name)?.value ?? '';
    const length = parseLength(text);
    if (length !== null && !(length.value > 0)) return `a ${name} of ${text.trim().slice(0, 40)}`;
  }
  if (badView) return 'a viewBox that makes no sense';
  if (badAspect) return 'a preserveAspectRatio that makes no sense';
  if (attributeOf(attributes, 'transform') !== undefined) return 'a transform on the page itself';
  return null;
}
