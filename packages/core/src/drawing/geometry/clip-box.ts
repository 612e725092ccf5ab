import { attributeOf, attributesOf, targetOf } from '../attributes-of.js';
import { childrenOf, type Drawing, type DrawingElement } from '../drawing.js';
import type { Sheets } from '../style/read-sheets.js';
import { geometryIn, styleOf } from '../style/style-of.js';
import { type Box, boxAround, cornersOf, joinBoxes } from './box.js';
import { identity, type Matrix } from '../../numeric/matrix.js';
import { parseLength } from './parse-length.js';
import { parseTransform } from './parse-transform.js';
import { type Bounds, shapeBox } from './shape-box.js';

/** What a `clipPath` lets through at most. */
export interface ClipBounds {
  /** From its own coordinates to those of whatever refers to it. */
  readonly matrix: Matrix;
  /** In its own coordinates; null where it says nothing that is understood. */
  readonly box: Box | null;
  /** Whether it is measured by the box of whatever refers to it. */
  readonly byBox: boolean;
}

/**
 * Work out what a `clipPath` lets through at most.
 *
 * @param drawing - Which it is of.
 * @param clip - The element.
 * @param sheets - The drawing's.
 * @returns Its bounds: never smaller than what it shows.
 * @see CSS Masking Module Level 1, 8: the clipPath element
 */
export function clipBounds(drawing: Drawing, clip: DrawingElement, sheets: Sheets): ClipBounds {
  const attributes = attributesOf(drawing, clip);
  const byBox = attributeOf(attributes, 'clipPathUnits')?.value.trim() === 'objectBoundingBox';
  const matrix = parseTransform(attributeOf(attributes, 'transform')?.value ?? '');
  const isMoved = geometryIn(styleOf(clip, attributes, sheets)) !== undefined;
  if (matrix === null || byBox || isMoved) return { matrix: identity, box: null, byBox };
  let box: Box | null = null;
  for (const child of childrenOf(drawing, clip)) {
    const bounds = childBox(drawing, child, sheets);
    if (bounds === 'unknown') return { matrix, box: null, byBox };
    box = joinBoxes(box, bounds);
  }
  return { matrix, box, byBox };
}

function childBox(drawing: Drawing, child: DrawingElement, sheets: Sheets): Bounds {
  if (child.name !== 'use') return ownBox(drawing, child, sheets);
  const attributes = attributesOf(drawing, child);
  const shape = targetOf(drawing, attributes);
  if (shape === undefined || shape.name === 'use') return 'unknown';
  const [x, y] = ['x', 'y'].map((name) => {
    const length = parseLength(attributeOf(attributes, name)?.value ?? '0');
    return length === null || length.kind === '%' ? NaN : length.value;
  });
  const box = ownBox(drawing, shape, sheets);
  if (box === null || box === 'unknown') return box;
  return moved(drawing, child, sheets, boxAround(cornersOf([1, 0, 0, 1, x ?? 0, y ?? 0], box)));
}

function ownBox(drawing: Drawing, element: DrawingElement, sheets: Sheets): Bounds {
  const box = shapeBox(element, attributesOf(drawing, element));
  return box === null || box === 'unknown' ? box : moved(drawing, element, sheets, box);
}

function moved(drawing: Drawing, element: DrawingElement, sheets: Sheets, box: Box): Bounds {
  const attributes = attributesOf(drawing, element);
  if (geometryIn(styleOf(element, attributes, sheets)) !== undefined) return 'unknown';
  const matrix = parseTransform(attributeOf(attributes, 'transform')?.value ?? '');
  if (matrix === null) return 'unknown';
  const around = boxAround(cornersOf(matrix, box));
  return Object.values(around).every(Number.isFinite) ? around : 'unknown';
}
