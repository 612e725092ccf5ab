import { isSvg } from '../drawing.js';
import type { Page } from '../geometry/page.js';
import { geometryIn } from '../style/style-of.js';
import type { Scene, Styled } from './around.js';

const moving = ['animate', 'animateTransform', 'animateMotion', 'animateColor', 'set'];

/**
 * Tell why it cannot be told of anything in a drawing where it shows.
 *
 * @param scene - The drawing and its style sheets.
 * @param root - What is set on its outermost element.
 * @param page - How it lies on paper.
 * @returns What it holds that leaves it open, or null.
 */
export function doubtOfDrawing(scene: Scene, root: Styled, page: Page): string | null {
  const { drawing, sheets } = scene;
  const isMoving = drawing.elements.some((element) => isSvg(element, ...moving));
  const sized = geometryIn(root.style);
  return (
    sheets.doubt ??
    (drawing.scripted ? 'a script' : null) ??
    (isMoving ? 'something that moves' : null) ??
    page.doubt ??
    (sized === undefined ? null : `a style that sets ${sized}`)
  );
}
