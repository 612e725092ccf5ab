import { MaxRectsPacker } from 'maxrects-packer';
import type { Size } from '../units/parse-size.js';

/** Where a box came to lie. */
export interface PackedBox {
  /** Which of the boxes. */
  readonly index: number;
  /** On which page, from 0. */
  readonly page: number;
  /** From the area's left, mm. */
  readonly x: number;
  /** From the area's top, mm. */
  readonly y: number;
  /** Whether it was turned to fit better. */
  readonly turned: boolean;
}

// What the packer fills in; it asks for leave to turn under two names.
interface Packed {
  width: number;
  height: number;
  x: number;
  y: number;
  rot: boolean;
  readonly allowRotation: boolean;
  readonly _allowRotation: boolean;
  readonly index: number;
}

// The packer counts in whole numbers: hundredths of a millimetre, rounded away from one another.
const perMm = 100;

/**
 * Pack boxes on as few pages as will do. The same boxes come to lie the same way again.
 *
 * @param boxes - Their sizes in mm, none larger than the area.
 * @param area - Of a page, mm.
 * @param turn - Whether each may be turned.
 * @returns Where each lies, in the order of the boxes.
 */
export function packBoxes(
  boxes: readonly Size<number>[],
  area: Size<number>,
  turn: readonly boolean[],
): readonly PackedBox[] {
  const packer = new MaxRectsPacker<Packed>(
    Math.floor(area.width * perMm + 1e-3),
    Math.floor(area.height * perMm + 1e-3),
    0,
    { smart: false, pot: false, square: false, allowRotation: true },
  );
  const packed = boxes.map(({ width, height }, index): Packed => {
    const [across, down] = [width, height].map((side) => Math.ceil(side * perMm - 1e-3));
    const allowRotation = turn[index] === true;
    const size = { width: across ?? 0, height: down ?? 0 };
    return { ...size, x: 0, y: 0, rot: false, allowRotation, _allowRotation: allowRotation, index };
  });
  packer.addArray(packed);
  return packer.bins
    .flatMap((bin, page) =>
      bin.rects.map((rectangle: Packed) => ({
        index: rectangle.index,
        page,
        x: rectangle.x / perMm,
        y: rectangle.y / perMm,
        turned: rectangle.rot,
      })),
    )
    .sort((a, b) => a.index - b.index);
}
