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

/** Light on a piece. */
export interface Light extends PerAxis<number> {
  /** How far a shadow falls, away from the light, for each mm that what casts it stands out. */
  readonly fall: number;
}

const half = Math.SQRT1_2;
const corner = { fall: Math.SQRT2 };
const side = { fall: 1 };

// Towards the light. It comes over the shoulder as well, at the 45 degrees of architectural drawing: a shadow
// falls as far down, or to a side, as what casts it stands out; from a corner, as far both ways.
const directions: Readonly<Record<LightSide, Light>> = {
  above: { x: 0, y: -1, ...side },
  below: { x: 0, y: 1, ...side },
  left: { x: -1, y: 0, ...side },
  right: { x: 1, y: 0, ...side },
  'above-left': { x: -half, y: -half, ...corner },
  'above-right': { x: half, y: -half, ...corner },
  'below-left': { x: -half, y: half, ...corner },
  'below-right': { x: half, y: half, ...corner },
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
 * @param from - Where it comes from.
 * @returns A direction of length 1, and how far shadows fall.
 */
export function toLight(from: LightSide): Light {
  return directions[from];
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

/**
 * Shade the outer edge of something that faces whoever looks: beside it, within, lies its own face and nothing
 * deeper, so that where the light runs along it there is nothing to see.
 *
 * @param normal - Where its side looks to, of length 1.
 * @param light - Towards the light.
 * @returns Light, above 0, where it faces the light; dark where it looks away.
 */
export function shadeRim(normal: PerAxis<number>, light: PerAxis<number>): number {
  return inks.line * (normal.x * light.x + normal.y * light.y);
}
