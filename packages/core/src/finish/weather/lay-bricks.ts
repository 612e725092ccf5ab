import type { PerAxis } from '../../surface/measurement.js';

/** A brick, by the middles of the joints around it, in pixels; part of it may lie over the picture's end. */
export interface BrickBox {
  /** Left. */
  readonly left: number;
  /** Top. */
  readonly top: number;
  /** Right. */
  readonly right: number;
  /** Bottom. */
  readonly bottom: number;
}

/** What of a picture is brick and what is joint, as it was seen. */
export interface SeenBricks {
  /** How like a joint each pixel is, about 0 brick to about 1 mortar, row by row. */
  readonly likeness: Float32Array;
  /** Every brick whose joints were found. */
  readonly boxes: readonly BrickBox[];
  /** A joint's width in pixels. */
  readonly joint: number;
}

/** A picture's bricks, each with a number. */
export interface LaidBricks {
  /** Which brick each pixel is of, row by row: 0 for none. */
  readonly labels: Uint16Array | Int32Array;
  /** By number, where its middle lies, in whole pixels; of a brick over the picture's end, from there. */
  readonly x: Int32Array;
  /** The same, down. */
  readonly y: Int32Array;
  /** How much of each pixel is joint, 0 to 1. */
  readonly joints: Float32Array;
}

/** The picture that bricks are laid in. */
export interface BrickPicture {
  /** Columns. */
  readonly width: number;
  /** Rows. */
  readonly height: number;
  /** Whether its ends meet, so that a brick may lie over them. */
  readonly meets: PerAxis<boolean>;
  /** Dots from where it is laid to where it is laid next, about its width and height, seldom whole. */
  readonly apart: PerAxis<number>;
}

// Between two bricks there is a joint, however like them it looks.
const surely = 0.5;
// How far a joint may reach over a brick beyond that, as a share of its shorter side: the same at every scale.
const raggedShare = 0.05;

/**
 * Lay numbered bricks in a picture. Within a brick nothing is joint, however pale it is; round it, what looks
 * like one is, and the rest half. Where no bricks were found, what looks like a joint is one.
 *
 * @param seen - Bricks and joints; its likeness becomes the joints.
 * @param picture - Its size.
 * @returns Which pixel is of which brick, and which is joint.
 */
export function layBricks(seen: SeenBricks, picture: BrickPicture): LaidBricks {
  const { width, height, meets, apart } = picture;
  // In place: of a large photo there is no room for it twice.
  const joints = seen.likeness;
  for (let i = 0; i < joints.length; i++) joints[i] = Math.min(1, Math.max(0, joints[i]!));
  // A brick over a corner has four numbers.
  const isFew = 4 * seen.boxes.length < 2 ** 16;
  const labels = isFew ? new Uint16Array(width * height) : new Int32Array(width * height);
  const xs = [0];
  const ys = [0];
  const half = seen.joint / 2;
  for (const { left, top, right, bottom } of seen.boxes) {
    const middle = { x: (left + right) / 2, y: (top + bottom) / 2 };
    const ragged = raggedShare * Math.min(right - left, bottom - top);
    // One number for its part at either end: its middle is told from there.
    const numbers = new Map<number, number>();
    for (let y = Math.ceil(top - 0.5); y + 0.5 < bottom; y++) {
      const turnY = Math.floor(y / height);
      if (turnY !== 0 && !meets.y) continue;
      const offY = Math.min(y + 0.5 - top, bottom - y - 0.5);
      for (let x = Math.ceil(left - 0.5); x + 0.5 < right; x++) {
        const turnX = Math.floor(x / width);
        if (turnX !== 0 && !meets.x) continue;
        const at = (y - turnY * height) * width + x - turnX * width;
        const off = Math.min(offY, x + 0.5 - left, right - x - 0.5);
        // Its edge runs through dots; and joints are wider than they are told, here and there.
        const sure = surely * Math.min(1, Math.max(0, half + 0.5 - off));
        const near = Math.min(1, Math.max(0, 2 * half + ragged + 0.5 - off));
        joints[at] = Math.max(sure, near * joints[at]!);
        if (joints[at] > surely) continue;
        const key = 4 * (turnX + 1) + turnY + 1;
        let number = numbers.get(key);
        if (number === undefined) {
          number = xs.push(Math.round(middle.x - turnX * apart.x)) - 1;
          ys.push(Math.round(middle.y - turnY * apart.y));
          numbers.set(key, number);
        }
        labels[at] = number;
      }
    }
  }
  return { labels, x: Int32Array.from(xs), y: Int32Array.from(ys), joints };
}
