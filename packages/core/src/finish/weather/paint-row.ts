import type { Raster } from '../../raster/raster.js';
import { coatAt, veilStep } from './veil.js';
import type { BrickMiddles, RepeatedPicture } from './vary-bricks.js';

/** Pixels of a wall, made ready. */
interface WallDots {
  /**
   * Of each pixel red, green and blue, encoded in sRGB, 0 to 1, and how like a joint or a hollow it is, 0 to 1: side
   * by side, for a kernel that goes through a dozen arrays at once takes half as long again.
   */
  readonly dots: Float32Array;
  /** Which brick each pixel is of, row by row: 0 for none. */
  readonly labels: Int32Array;
}

/** What {@link WallDots} of a row are made from. */
export interface WallLight {
  /** Of the picture, in linear light. */
  readonly planes: Raster['planes'];
  /** How like a joint or a hollow each pixel is, 0 to 1. */
  readonly joints: Float32Array;
  /** Which brick each is of, or null where none are known. */
  readonly labels: Uint16Array | Int32Array | null;
}

/** A picture of a wall, made ready. */
export interface WallPicture extends RepeatedPicture {
  /** Its pixels, as a row is painted with them; or as they are, where each is painted once. */
  readonly pixels: WallDots | WallLight;
  /** Its bricks, or null where none are known. */
  readonly bricks: BrickMiddles | null;
}

/** What lies over two rows, {@link veilStep} numbers side by side. */
export interface RowVeil {
  /**
   * For two dots by two, over bricks: what red, green and blue are multiplied by, less 1, what is added to them, 0
   * to 1, and how thick a coat is.
   */
  readonly bricks: Float32Array;
  /** For each place: by which those of joints differ. */
  readonly joints: Float32Array;
}

/** Dots from one place to the next, both ways: layers are reckoned at places and drawn straight between. */
export type PlaceDots = 2 | 4;

/**
 * Say how far apart places lie: about as far on the wall at every scale, so that all scales show one weather.
 *
 * @param mm - Millimetres of the wall to a dot.
 * @returns From one to the next, in dots.
 */
export function placeDots(mm: number): PlaceDots {
  return mm > 8 ? 2 : 4;
}

/** Colours of a row: 0 to 1, or bytes, to which they were rounded as they were made. */
export type Colours = Float32Array | Uint8Array;

/** What a row is painted with; of an even number of dots. */
export interface RowToPaint {
  /** What is under it. */
  readonly picture: WallDots;
  /** What lies over it. */
  readonly veil: RowVeil;
  /** How many dots a place of the veil is wide. */
  readonly places: PlaceDots;
  /** The picture's pixel that its row begins with. */
  readonly line: number;
  /** Of each dot, which column of the picture it shows. */
  readonly columns: Int32Array;
  /** Of each dot, where in `shares` the bricks of its copy begin. */
  readonly firsts: Int32Array;
  /** How much each brick takes, copy by copy, by its number. */
  readonly shares: Float32Array;
  /** How much each dot takes. */
  readonly grain: Float32Array;
}

/**
 * Paint one row: each dot takes as much of what lies over it as its grain and its brick say, and the more the
 * thicker a coat lies on it; which is never more than all. Where what lies over the wall changes fast, a colour may
 * still leave 0 to 1 by a little: what joints differ by is told half way between two rows of places, all the rest at
 * the row itself.
 *
 * @param out - RGBRGB…, encoded in sRGB, filled: about 0 to 1; or rounded to bytes and clipped as they are written,
 *   just as the former are rounded afterwards: of all that single precision can hold 127.5 alone is half way between
 *   two bytes, and becomes 128.
 * @param paint - What with.
 */
export function paintRow(out: Float32Array | Uint8ClampedArray, paint: RowToPaint): void {
  const times = out instanceof Uint8ClampedArray ? 255 : 1;
  const { veil, line, columns, firsts, shares, grain } = paint;
  const shift = paint.places >> 1;
  const { bricks, joints } = veil;
  const { dots, labels } = paint.picture;
  for (let x = 0, to = 0, i = 0; x < grain.length; x += 2, to += 6, i += veilStep) {
    const left = line + columns[x]!;
    const right = line + columns[x + 1]!;
    const p = 4 * left;
    const q = 4 * right;
    const coat = bricks[i + coatAt]!;
    const bareLeft = grain[x]! * shares[firsts[x]! + labels[left]!]!;
    const bareRight = grain[x + 1]! * shares[firsts[x + 1]! + labels[right]!]!;
    const takeLeft = bareLeft + (1 - bareLeft) * coat;
    const takeRight = bareRight + (1 - bareRight) * coat;
    const jointLeft = dots[p + 3]!;
    const jointRight = dots[q + 3]!;
    let a = bricks[i]!;
    let b = bricks[i + 1]!;
    let c = bricks[i + 2]!;
    let d = bricks[i + 3]!;
    let e = bricks[i + 4]!;
    let f = bricks[i + 5]!;
    const r = dots[p]!;
    const g = dots[p + 1]!;
    const h = dots[p + 2]!;
    const s = dots[q]!;
    const t = dots[q + 1]!;
    const u = dots[q + 2]!;
    if (jointLeft + jointRight > 0) {
      const at = veilStep * (x >> shift);
      const k = joints[at]!;
      const l = joints[at + 1]!;
      const m = joints[at + 2]!;
      const n = joints[at + 3]!;
      const o = joints[at + 4]!;
      const v = joints[at + 5]!;
      out[to] = times * Math.fround(r + takeLeft * ((a + jointLeft * k) * r + d + jointLeft * n));
      out[to + 1] =
        times * Math.fround(g + takeLeft * ((b + jointLeft * l) * g + e + jointLeft * o));
      out[to + 2] =
        times * Math.fround(h + takeLeft * ((c + jointLeft * m) * h + f + jointLeft * v));
      a += jointRight * k;
      b += jointRight * l;
      c += jointRight * m;
      d += jointRight * n;
      e += jointRight * o;
      f += jointRight * v;
    } else {
      out[to] = times * Math.fround(r + takeLeft * (a * r + d));
      out[to + 1] = times * Math.fround(g + takeLeft * (b * g + e));
      out[to + 2] = times * Math.fround(h + takeLeft * (c * h + f));
    }
    out[to + 3] = times * Math.fround(s + takeRight * (a * s + d));
    out[to + 4] = times * Math.fround(t + takeRight * (b * t + e));
    out[to + 5] = times * Math.fround(u + takeRight * (c * u + f));
  }
}
