import { attributeOf } from '../attributes-of.js';
import type { DrawingAttribute } from '../drawing.js';
import { type Box, cornersOf, hasArea } from '../geometry/box.js';
import { fitView, parseAspect, parseViewBox } from '../geometry/fit-view.js';
import { compose, type Matrix } from '../../numeric/matrix.js';
import { toUnits } from '../geometry/parse-length.js';
import type { Around, Styled } from './around.js';

/**
 * Go into the viewport that an `svg` inside another, or a `symbol` that is used, makes.
 *
 * @param around - What holds at it.
 * @param styled - The element.
 * @param user - Attributes of the `use` that brings it in, whose size goes first; or null.
 * @returns What holds inside, or null where it has no size and so shows nothing.
 * @see SVG 2, 5.5, 5.6, 8.2 and 8.7
 */
export function enterViewport(
  around: Around,
  styled: Styled,
  user: readonly DrawingAttribute[] | null,
): Around | null {
  const { attributes, style } = styled;
  const rect = rectOf(around, attributes, user);
  if (rect === null) return { ...around, doubt: around.doubt ?? 'a size in units that have none' };
  if (!hasArea(rect)) return null;
  const view = viewOf(attributes);
  const aspect = parseAspect(attributeOf(attributes, 'preserveAspectRatio')?.value);
  const isBad = view === 'bad' || aspect === null;
  const seen = isBad || view === null ? null : { fit: fitView(view, rect, aspect), box: view };
  const { fit, box } = seen ?? { fit: shiftTo(rect), box: rect };
  const isOpen = /^(visible|auto)/.test(style.get('overflow') ?? '');
  return {
    ...around,
    matrix: compose(around.matrix, fit),
    viewport: { width: box.x1 - box.x0, height: box.y1 - box.y0 },
    clips: isOpen ? around.clips : [...around.clips, cornersOf(around.matrix, rect)],
    doubt: around.doubt ?? doubtOf(styled, isBad),
  };
}

function shiftTo({ x0, y0 }: Box): Matrix {
  return [1, 0, 0, 1, x0, y0];
}

function rectOf(
  { viewport }: Around,
  attributes: readonly DrawingAttribute[],
  user: readonly DrawingAttribute[] | null,
): Box | null {
  const own = (name: string): string | undefined => attributeOf(attributes, name)?.value;
  const size = (name: string): string | undefined =>
    attributeOf(user ?? [], name)?.value ?? own(name);
  const x = toUnits(own('x'), viewport.width, 0);
  const y = toUnits(own('y'), viewport.height, 0);
  const width = toUnits(size('width'), viewport.width, viewport.width);
  const height = toUnits(size('height'), viewport.height, viewport.height);
  if (x === null || y === null || width === null || height === null) return null;
  return { x0: x, y0: y, x1: x + width, y1: y + height };
}

function viewOf(attributes: readonly DrawingAttribute[]): Box | null | 'bad' {
  const text = attributeOf(attributes, 'viewBox')?.value;
  return text === undefined ? null : (parseViewBox(text) ?? 'bad');
}

function doubtOf({ element, attributes }: Styled, bad: boolean): string | null {
  if (bad) return 'a viewBox that makes no sense';
  const odd = element.name === 'svg' ? ['transform'] : ['refX', 'refY'];
  const differs = odd.some((name) => attributeOf(attributes, name) !== undefined);
  return differs ? 'something that drawing programs differ on' : null;
}
