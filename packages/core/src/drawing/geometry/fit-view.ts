import type { Box } from './box.js';
import type { Matrix } from '../../numeric/matrix.js';

/** How a picture or a viewBox is set into a rectangle of another shape. */
export interface Aspect {
  /** Where along x: 0 left, 0.5 middle, 1 right. */
  readonly x: number;
  /** Where along y: 0 top, 0.5 middle, 1 bottom. */
  readonly y: number;
  /** All of it shown, all of the rectangle covered, or stretched. */
  readonly fit: 'meet' | 'slice' | 'none';
}

const places = new Map([
  ['Min', 0],
  ['Mid', 0.5],
  ['Max', 1],
]);

/**
 * Read a `preserveAspectRatio`.
 *
 * @param text - As stated; undefined means the middle, all of it shown.
 * @returns What it asks, or null where it is none.
 * @see Scalable Vector Graphics (SVG) 2, 8.7
 */
export function parseAspect(text: string | undefined): Aspect | null {
  if (text === undefined) return { x: 0.5, y: 0.5, fit: 'meet' };
  const match =
    /^\s*(?:defer\s+)?(?:(none)|x(Min|Mid|Max)Y(Min|Mid|Max))(?:\s+(meet|slice))?\s*$/.exec(text);
  if (match === null) return null;
  const [, none, x = 'Mid', y = 'Mid', fit] = match;
  const at = { x: places.get(x) ?? 0, y: places.get(y) ?? 0 };
  if (none !== undefined) return { ...at, fit: 'none' };
  return { ...at, fit: fit === 'slice' ? 'slice' : 'meet' };
}

/**
 * Read a `viewBox`.
 *
 * @param text - Four numbers.
 * @returns The box, or null where it is none or has no area.
 * @see Scalable Vector Graphics (SVG) 2, 8.6
 */
export function parseViewBox(text: string): Box | null {
  const parts = text.trim().split(/\s+(?:,\s*)?|,\s*/);
  if (parts.length !== 4) return null;
  if (!parts.every((part) => /^[+-]?(\d+(?:\.\d*)?|\.\d+)(e[+-]?\d+)?$/i.test(part))) return null;
  const [x = 0, y = 0, width = 0, height = 0] = parts.map(Number);
  if (!(width > 0 && height > 0)) return null;
  const box = { x0: x, y0: y, x1: x + width, y1: y + height };
  return Object.values(box).every(Number.isFinite) ? box : null;
}

/**
 * Set a viewBox, or a picture, into a rectangle.
 *
 * @param view - What is set, of some area.
 * @param into - The rectangle, of some area.
 * @param aspect - How.
 * @returns The transform from the one to the other.
 * @see Scalable Vector Graphics (SVG) 2, 8.2: the equivalent transform
 */
export function fitView(view: Box, into: Box, aspect: Aspect): Matrix {
  const [width, height] = [view.x1 - view.x0, view.y1 - view.y0];
  let x = (into.x1 - into.x0) / width;
  let y = (into.y1 - into.y0) / height;
  if (aspect.fit === 'meet') x = y = Math.min(x, y);
  if (aspect.fit === 'slice') x = y = Math.max(x, y);
  const left = into.x0 + aspect.x * (into.x1 - into.x0 - width * x);
  const top = into.y0 + aspect.y * (into.y1 - into.y0 - height * y);
  // Stretched, both differences are nought.
  return [x, 0, 0, y, left - view.x0 * x, top - view.y0 * y];
}
