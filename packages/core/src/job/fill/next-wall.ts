import { outOfRange } from '../../errors/out-of-range.js';
import type { PerAxis } from '../../surface/measurement.js';
import { type Dpi, mmPerInch, type PrintMm, toDots } from '../../units/units.js';

/** Which corner of a wall the next one stands round. */
export type Corner =
  | { readonly side: 'right' }
  /** Whose own width says where it begins. */
  | { readonly side: 'left'; readonly width: PrintMm };

/** Where the wall round a corner lies on the paper that both are cut from. */
export interface NextWall {
  /** Round which corner. */
  readonly corner: 'left' | 'right';
  /** Its datum, to the right: what `--datum` takes. */
  readonly datumXMm: number;
  /** Its datum, down: as this wall's. */
  readonly datumYMm: number;
}

/** The wall at hand. */
export interface WallAtCorner {
  /** On paper, without bleed. */
  readonly width: PrintMm;
  /** Of the printer. */
  readonly dpi: Dpi;
  /** Where it lies. */
  readonly datum: PerAxis<number>;
  /** Whether its edges lie within dots rather than on them, as those of an outline do. */
  readonly isShaped: boolean;
}

// Past this a finger slipped, mm.
const farthestDatum = 1e6;

/**
 * Refuse a datum that nobody meant.
 *
 * @param datum - mm from it, across and down.
 * @throws RangeError where either is over 1 km.
 */
export function checkDatum(datum: PerAxis<number>): void {
  for (const at of [datum.x, datum.y]) {
    if (!(Math.abs(at) <= farthestDatum)) throw outOfRange('up to 1 km', 'datum', `${at} mm`);
  }
}

/**
 * Say where the wall round a corner lies, so that its first column of dots is the one after this wall's
 * last, or its last the one before this wall's first. Walls are told apart by whole dots; so is the
 * datum.
 *
 * @param wall - The wall at hand.
 * @param corner - Round which corner.
 * @returns What to say of the next one.
 */
export function nextWall(wall: WallAtCorner, corner: Corner): NextWall {
  const { width, dpi, datum, isShaped } = wall;
  const perMm = dpi / mmPerInch;
  const begin = datum.x * perMm;
  const edge = isShaped ? begin + toDots(width, dpi) : Math.round(begin) + dots(width, dpi);
  const at = corner.side === 'right' ? edge : begin - dots(corner.width, dpi);
  // To a ten-thousandth of a millimetre: a fiftieth of the finest dot.
  const tidy = (mm: number): number => Math.round(mm * 1e4) / 1e4 + 0;
  return {
    corner: corner.side,
    datumXMm: tidy(Math.round(at) / perMm),
    datumYMm: datum.y,
  };
}

/**
 * Refuse a corner past which no datum is taken, before the long work.
 *
 * @param wall - The wall at hand.
 * @param corner - Round which corner, or undefined where nobody asked.
 * @throws RangeError where the next wall would begin over 1 km off.
 */
export function checkCorner(wall: WallAtCorner, corner: Corner | undefined): void {
  if (corner === undefined) return;
  const { datumXMm } = nextWall(wall, corner);
  if (Math.abs(datumXMm) <= farthestDatum) return;
  const expected = 'a datum that lets the wall round the corner begin within 1 km';
  throw outOfRange(expected, 'corner', `${datumXMm} mm`);
}

function dots(width: PrintMm, dpi: Dpi): number {
  return Math.round(toDots(width, dpi));
}
