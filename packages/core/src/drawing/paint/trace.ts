import type { DrawnArea } from '../../page/drawn.js';
import { BadDrawing } from '../bad-drawing.js';
import type { DrawingElement } from '../drawing.js';
import { type ShapeToFollow, tellShape } from '../outline/follow-shape.js';
import { farthest } from './farthest.js';
import { PathPen } from '../outline/path-pen.js';
import type { Paint } from './paint.js';

/**
 * Trace a shape's edge.
 *
 * @param name - Of its element.
 * @param told - Its measures.
 * @returns Step by step; none where there is nothing.
 * @throws BadDrawing where it makes no sense.
 */
export function stepsOf(
  name: string,
  told: Pick<ShapeToFollow, 'attributes' | 'viewport'>,
): DrawnArea['steps'] {
  const pen = new PathPen();
  tellShape({ name, ...told }, pen);
  const isSound = (at: number): boolean => Math.abs(at) <= farthest;
  if (pen.steps.every(([, ...numbers]) => numbers.every(isSound))) return pen.steps;
  throw new BadDrawing(`holds a ${name} whose figures make no sense`);
}

/**
 * Tell what of a shape is inside.
 *
 * @param paint - As it stands.
 * @param name - Whether it is filled, or clips.
 * @returns By which of the two, `nonzero` unless it says so.
 */
export function ruleOf(paint: Paint, name: 'fill-rule' | 'clip-rule'): DrawnArea['rule'] {
  return paint.set.get(name) === 'evenodd' ? 'evenodd' : 'nonzero';
}

/**
 * Refuse a drawing for one of its elements.
 *
 * @param element - By it.
 * @param what - What of it is not drawn on pages, to follow its name.
 * @returns What to throw.
 */
export function refuseMark(element: DrawingElement, what: string): BadDrawing {
  const { id, name } = element;
  const kind = `${/^[aeiou]/.test(name) ? 'an' : 'a'} <${name}>`;
  return new BadDrawing(`shows ${id === null ? kind : `#${id}`} that ${what}`);
}
