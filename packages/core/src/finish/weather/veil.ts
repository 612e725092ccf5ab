import { blend } from '../../colour/blend.js';
import type { PlaceSpan } from './octaves.js';

/** What lies over a row of places: each channel of what is under it is multiplied and added to. */
export interface Veil {
  /** Over bricks. */
  readonly bricks: VeilMaps;
  /** Over joints and hollows. */
  readonly joints: VeilMaps;
  /**
   * How thick a coat lies on each place, 0 to 1: it hides what is under it, whatever brick and grain would take
   * of mere dirt.
   */
  readonly coat: Float32Array;
}

/** Red, green and blue: first what each is multiplied by, less 1, then what is added. */
export type VeilMaps = readonly [
  Float32Array,
  Float32Array,
  Float32Array,
  Float32Array,
  Float32Array,
  Float32Array,
];

/** A colour, encoded in sRGB, 0 to 1. */
export type Colour = readonly [number, number, number];

/** A colour that is laid on, and how it mixes with what is under it. */
export interface Paint {
  /** What each channel is multiplied by, less 1, where it covers all. */
  readonly gains: Colour;
  /** What is then added. */
  readonly adds: Colour;
}

/**
 * Make a veil that changes nothing.
 *
 * @param count - Places along the row.
 * @returns It.
 */
export function createVeil(count: number): Veil {
  const maps = (): VeilMaps => [
    new Float32Array(count),
    new Float32Array(count),
    new Float32Array(count),
    new Float32Array(count),
    new Float32Array(count),
    new Float32Array(count),
  ];
  return { bricks: maps(), joints: maps(), coat: new Float32Array(count) };
}

/**
 * Take all off a veil again.
 *
 * @param veil - To be used for another row.
 */
export function clearVeil(veil: Veil): void {
  for (const map of [...veil.bricks, ...veil.joints, veil.coat]) map.fill(0);
}

/**
 * Say what a paint does: `multiply` as soot and wet do, `screen` as salts, `cover` as growth and render.
 * All three are straight lines in the light under them, which their values over black and white give.
 *
 * @param mode - How it mixes.
 * @param colour - Of it.
 * @returns The lines.
 */
export function toPaint(mode: 'multiply' | 'screen' | 'cover', colour: Colour): Paint {
  const over = (backdrop: number): Colour =>
    mode === 'cover'
      ? colour
      : [
          blend(mode, backdrop, colour[0]),
          blend(mode, backdrop, colour[1]),
          blend(mode, backdrop, colour[2]),
        ];
  const [black, white] = [over(0), over(1)];
  return {
    gains: [white[0] - black[0] - 1, white[1] - black[1] - 1, white[2] - black[2] - 1],
    adds: black,
  };
}

/**
 * Thicken the coat of a row by what is laid on it.
 *
 * @param veil - Of the row.
 * @param cover - How much of each place it covers, 0 to 1.
 * @param span - From which place up to which; all of them unless told.
 */
export function layCoat(
  veil: Veil,
  cover: Float32Array,
  span: PlaceSpan = { from: 0, to: cover.length },
): void {
  const { coat } = veil;
  const { from, to } = span;
  for (let i = from; i < to; i++) coat[i] = 1 - (1 - coat[i]!) * (1 - cover[i]!);
}

/**
 * Lay paint over a row, on top of what lies there.
 *
 * @param maps - Of the bricks, or of the joints.
 * @param paint - What.
 * @param cover - How much of each place it covers, 0 to 1.
 * @param span - From which place up to which; all of them unless told.
 * @see W3C Compositing and Blending Level 1, 5.1: simple alpha compositing
 */
export function layPaint(
  maps: VeilMaps,
  paint: Paint,
  cover: Float32Array,
  span: PlaceSpan = { from: 0, to: cover.length },
): void {
  const [red, green, blue, redAdd, greenAdd, blueAdd] = maps;
  const [p, q, r] = paint.gains;
  const [a, b, c] = paint.adds;
  const { from, to } = span;
  for (let i = from; i < to; i++) {
    const share = cover[i]!;
    if (share <= 0) continue;
    const stepP = share * p;
    const stepQ = share * q;
    const stepR = share * r;
    red[i] = red[i]! + stepP + stepP * red[i]!;
    green[i] = green[i]! + stepQ + stepQ * green[i]!;
    blue[i] = blue[i]! + stepR + stepR * blue[i]!;
    redAdd[i] = redAdd[i]! * (1 + stepP) + share * a;
    greenAdd[i] = greenAdd[i]! * (1 + stepQ) + share * b;
    blueAdd[i] = blueAdd[i]! * (1 + stepR) + share * c;
  }
}
