import type { LaidBricks } from './lay-bricks.js';
import type { RepeatedPicture } from './vary-bricks.js';

/** A picture of a wall, made ready. */
export interface WallPicture extends RepeatedPicture {
  /** Red, green and blue, encoded in sRGB, 0 to 1. */
  readonly planes: readonly [Float32Array, Float32Array, Float32Array];
  /** How like a joint or a hollow each pixel is, 0 to 1. */
  readonly joints: Float32Array;
  /** Which brick each is of, or null where none are known. */
  readonly bricks: LaidBricks | null;
}

/**
 * What lies over two rows, two dots by two: six maps for bricks, what red, green and blue are multiplied by,
 * less 1, and what is added to them, 0 to 1; six by which joints differ from those; and how thick a coat is.
 */
export type RowVeil = readonly Float32Array[];

/** A run of a row that one copy of the picture shows. */
export interface PaintRun {
  /** The picture's pixel that is shown first. */
  readonly at: number;
  /** Dots of the row up to its end. */
  readonly end: number;
  /** How much each brick takes, by its number. */
  readonly shares: Float32Array;
}

/** What a row is painted with. */
export interface RowToPaint {
  /** What is under it. */
  readonly picture: WallPicture;
  /** What lies over it. */
  readonly veil: RowVeil;
  /** Which pixels of the picture, from the row's first dot to its last. */
  readonly runs: readonly PaintRun[];
  /** How much each dot takes. */
  readonly grain: Float32Array;
}

/**
 * Dots from one place to the next, both ways: layers are reckoned at places and drawn straight between.
 */
export const places = 4;

/**
 * Paint one row: each dot takes as much of what lies over it as its grain and its brick say, and the more the
 * thicker a coat lies on it; which is never more than all: no colour leaves 0 to 1.
 *
 * @param out - RGBRGB…, encoded in sRGB, filled.
 * @param paint - What with.
 */
export function paintRow(out: Float32Array, paint: RowToPaint): void {
  const { picture, veil, grain } = paint;
  const { joints, bricks } = picture;
  const [red, green, blue] = picture.planes;
  const m0 = veil[0]!;
  const m1 = veil[1]!;
  const m2 = veil[2]!;
  const m3 = veil[3]!;
  const m4 = veil[4]!;
  const m5 = veil[5]!;
  const n0 = veil[6]!;
  const n1 = veil[7]!;
  const n2 = veil[8]!;
  const n3 = veil[9]!;
  const n4 = veil[10]!;
  const n5 = veil[11]!;
  const coat = veil[12]!;
  const labels = bricks === null ? null : bricks.labels;
  let x = 0;
  for (const run of paint.runs) {
    const { shares } = run;
    const shift = run.at - x;
    const end = Math.min(run.end, grain.length);
    for (let to = 3 * x; x < end; x++, to += 3) {
      const at = x + shift;
      const i = x >> 1;
      const bare = labels === null ? grain[x]! : grain[x]! * shares[labels[at]!]!;
      const take = bare + (1 - bare) * coat[i]!;
      const joint = joints[at]!;
      let v0 = m0[i]!;
      let v1 = m1[i]!;
      let v2 = m2[i]!;
      let v3 = m3[i]!;
      let v4 = m4[i]!;
      let v5 = m5[i]!;
      if (joint > 0) {
        v0 += joint * n0[i]!;
        v1 += joint * n1[i]!;
        v2 += joint * n2[i]!;
        v3 += joint * n3[i]!;
        v4 += joint * n4[i]!;
        v5 += joint * n5[i]!;
      }
      const r = red[at]!;
      const g = green[at]!;
      const b = blue[at]!;
      out[to] = r + take * (v0 * r + v3);
      out[to + 1] = g + take * (v1 * g + v4);
      out[to + 2] = b + take * (v2 * b + v5);
    }
  }
}
