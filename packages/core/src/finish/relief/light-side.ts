import { outOfRange } from '../../errors/out-of-range.js';
import type { PerAxis } from '../../surface/measurement.js';
import { inks } from './pens.js';

/** Where the light comes from, as the piece is drawn. */
export type LightSide =
  | 'above'
  | 'below'
  | 'left'
  | 'right'
  | 'above-left'
  | 'above-right'
  | 'below-left'
  | 'below-right';

const half = Math.SQRT1_2;

// Towards the light. It comes over the shoulder as well, so that a shadow is as long as what casts it
// stands out: the 45 degrees of architectural drawing.
const directions: Readonly<Record<LightSide, PerAxis<number>>> = {
  above: { x: 0, y: -1 },
  below: { x: 0, y: 1 },
  left: { x: -1, y: 0 },
  right: { x: 1, y: 0 },
  'above-left': { x: -half, y: -half },
  'above-right': { x: half, y: -half },
  'below-left': { x: -half, y: half },
  'below-right': { x: half, y: half },
};

/**
 * Take a side that light comes from.
 *
 * @param text - Such as `above` or `below-left`.
 * @param name - What it is for, as the user knows it.
 * @returns The side.
 * @throws RangeError that lists them, when it is none.
 */
export function parseLight(text: string, name = 'light'): LightSide {
  if (isSide(text)) return text;
  throw outOfRange(`one of ${Object.keys(directions).join(', ')}`, name, text);
}

function isSide(text: string): text is LightSide {
  return Object.hasOwn(directions, text);
}

/**
 * Tell which way the light lies.
 *
 * @param side - Where it comes from.
 * @returns A direction of length 1.
 */
export function toDirection(side: LightSide): PerAxis<number> {
  return directions[side];
}

// Within some degrees of the light no side of an edge is lit.
const edgeOn = 0.3;

/**
 * Shade an edge as its normal asks.
 *
 * @param normal - Where the face that is seen edge on looks to, of length 1.
 * @param light - Towards the light.
 * @returns Light, above 0, where it faces the light; dark where it looks away, and a little dark between.
 */
export function shadeEdge(normal: PerAxis<number>, light: PerAxis<number>): number {
  const facing = normal.x * light.x + normal.y * light.y;
  const lit = inks.line * facing;
  const share = Math.min(1, Math.abs(facing) / edgeOn);
  if (share === 1) return lit;
  // What the light runs along is a little dark; from there evenly to what faces it, or looks away.
  return share * inks.line * edgeOn * Math.sign(facing) - (1 - share) * inks.along;
}
