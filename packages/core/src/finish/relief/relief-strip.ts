import type { ReliefBand } from '../../page/relief-mark.js';
import type { Light } from './light-side.js';

/** From end to end, along a piece. */
export interface Reach {
  /** Its left end. */
  readonly x0: number;
  /** Its right end. */
  readonly x1: number;
}

/** Something that lies along a piece, straight or bent: what is seen of it follows from the light there. */
export interface ReliefStrip extends Reach {
  /** Whether it is bare paper. */
  readonly isPaper: boolean;
  /** Whether it is what lies deeper, as a whole; not unless told. */
  readonly isFace?: boolean;
  /**
   * Tell what is seen of it.
   *
   * @param light - Towards the light, as the piece lies: along it, and from its top to its foot.
   * @returns Where it lies, and its shade; it may come to nothing.
   */
  readonly lit: (light: Light) => LitStrip;
}

/** What is seen of a strip. */
export interface LitStrip {
  /** Its top, mm of paper from that of the section. */
  readonly y0: number;
  /** Its foot. */
  readonly y1: number;
  /** How light it is at its top: from -1, black, to 1, white. */
  readonly top: number;
  /** How light it is at its foot; evenly more or less from one to the other. */
  readonly foot: number;
}

/**
 * Draw a strip of a straight piece.
 *
 * @param strip - What to draw.
 * @param light - Towards the light.
 * @returns A band, or none where it comes to nothing.
 */
export function toBand(strip: ReliefStrip, light: Light): ReliefBand[] {
  const { x0, x1, isPaper, isFace = false, lit } = strip;
  const { y0, y1, top, foot } = lit(light);
  if (!(y1 > y0) || (top === 0 && foot === 0)) return [];
  const tone = isPaper ? 'paper' : top + foot > 0 ? 'light' : 'dark';
  const face = isFace && { isFace };
  return [
    { kind: 'band', ...face, tone, x0, x1, y0, y1, top: Math.abs(top), foot: Math.abs(foot) },
  ];
}
