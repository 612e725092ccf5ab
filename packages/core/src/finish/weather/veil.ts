import { blend } from '../../colour/blend.js';
import { openKernel } from '../../numeric/open-kernel.js';
import type { PlaceSpan } from './octaves.js';
import { paintCode } from './paint-code.js';

/**
 * What lies over a row of places, {@link veilStep} numbers from one place to the next: what red, green and blue are
 * multiplied by, less 1; how thick a coat is; what is added to them; then how many times as much of the wall's faded
 * colour shows as of its own, which nobody knows before its picture is.
 */
export interface Veil {
  /**
   * Over bricks; and fourth, of joints too, how thick a coat lies on each place, 0 to 1: it hides what is under it,
   * whatever brick and grain would take of mere dirt.
   */
  readonly bricks: Float32Array;
  /** Over joints and hollows: the same array, further on. */
  readonly joints: Float32Array;
  /** What lays on it. */
  readonly brush: Brush;
}

/** What lays paint on a veil that lies in the same memory. */
interface Brush {
  /** Room for how much of each place is covered. */
  readonly cover: Float32Array;
  /** Room for a paint. */
  readonly paint: Float32Array;
  /** Of the kernel. */
  readonly calls: Readonly<Record<'lay', (...numbers: number[]) => void>>;
}

/** From one place of a veil to the next, in numbers: those of bricks, then those of joints. */
export const veilStep = 16;
const jointsAt = 8;

/** Where the coat stands among the numbers of a place. */
export const coatAt = 3;

/** And where the faded colour does, of joints too. */
export const fadedAt = 7;

/** A colour, encoded in sRGB, 0 to 1. */
export type Colour = readonly [number, number, number];

/**
 * A colour that is laid on, and how it mixes with what is under it: what red, green and blue are multiplied by, less 1,
 * where it covers all, and 0; then what is added, and 0.
 */
export type Paint = Float32Array;

/**
 * Open a veil, which changes nothing.
 *
 * @param count - Places.
 * @returns It.
 */
export function openVeil(count: number): Veil {
  const { calls, room } = openKernel<'lay', 'veil' | 'cover' | 'colour'>(paintCode, {
    veil: veilStep * count,
    cover: count,
    colour: 8,
  });
  const brush = { cover: room.cover, paint: room.colour, calls };
  return { bricks: room.veil, joints: room.veil.subarray(jointsAt), brush };
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
  const gains = white.map((channel, i) => channel - black[i]! - 1);
  return Float32Array.of(...gains, 0, ...black, 0);
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
  const { bricks } = veil;
  const { from, to } = span;
  for (let i = from, at = veilStep * from + coatAt; i < to; i++, at += veilStep) {
    bricks[at] = 1 - (1 - bricks[at]!) * (1 - cover[i]!);
  }
}

/**
 * Lay paint over bricks and joints alike, on top of what lies there.
 *
 * @param veil - Of the row.
 * @param paint - What.
 * @param cover - How much of each place it covers, 0 to 1.
 * @param span - From which place up to which; all of them unless told.
 */
export function layOverAll(veil: Veil, paint: Paint, cover: Float32Array, span?: PlaceSpan): void {
  layOverBricks(veil, paint, cover, span);
  layOverJoints(veil, paint, cover, span);
}

/**
 * Lay paint over bricks alone, on top of what lies there.
 *
 * @param veil - Of the row.
 * @param paint - What.
 * @param cover - How much of each place it covers, 0 to 1.
 * @param span - From which place up to which; all of them unless told.
 */
export function layOverBricks(
  veil: Veil,
  paint: Paint,
  cover: Float32Array,
  span?: PlaceSpan,
): void {
  layPaint(veil.brush, veil.bricks, { paint, cover, span });
}

/**
 * Lay paint over joints and hollows alone, on top of what lies there.
 *
 * @param veil - Of the row.
 * @param paint - What.
 * @param cover - How much of each place it covers, 0 to 1.
 * @param span - From which place up to which; all of them unless told.
 */
export function layOverJoints(
  veil: Veil,
  paint: Paint,
  cover: Float32Array,
  span?: PlaceSpan,
): void {
  layPaint(veil.brush, veil.joints, { paint, cover, span });
}

interface PaintToLay {
  readonly paint: Paint;
  readonly cover: Float32Array;
  readonly span: PlaceSpan | undefined;
}

// See W3C Compositing and Blending Level 1, 5.1: simple alpha compositing.
function layPaint(brush: Brush, over: Float32Array, { paint, cover, span }: PaintToLay): void {
  const { from, to } = span ?? { from: 0, to: cover.length };
  brush.paint.set(paint);
  brush.cover.set(cover.subarray(from, to));
  brush.calls.lay(
    over.byteOffset + 4 * veilStep * from,
    brush.cover.byteOffset,
    brush.cover.byteOffset + 4 * (to - from),
    brush.paint.byteOffset,
  );
}
