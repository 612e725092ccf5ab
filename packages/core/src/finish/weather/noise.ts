import { hashCell } from './hash-cell.js';

/** Chance that varies smoothly over the wall: one size of blotch. */
export interface NoiseOctave {
  /** Millimetres of the wall to a cell. */
  readonly cell: {
    /** To the right. */
    readonly x: number;
    /** Down. */
    readonly y: number;
  };
  /** Cells after which it comes round, or 0 where it never does. */
  readonly wrap: {
    /** To the right. */
    readonly x: number;
    /** Down. */
    readonly y: number;
  };
  /** Whole, 32 bits. */
  readonly seed: number;
  /** How much of it is added: its standard deviation. */
  readonly weight: number;
}

/** Places along rows of the wall, at equal steps. */
export interface NoiseRun {
  /** Number of the first, counted from the datum. */
  readonly first: number;
  /** How many. */
  readonly count: number;
  /** From one to the next, mm. */
  readonly step: number;
  /** Where number 0 lies, mm. */
  readonly start: number;
}

/** Adds noise to some places of a row so many mm down, from one up to another. */
export type AddNoise = (
  y: number,
  out: Float32Array,
  span: { readonly from: number; readonly to: number },
) => void;

// 16 directions of length 1, off the axes and diagonals: cos and sin of 11.25 and 33.75 degrees and
// their mirror images, so that no platform's own sines have a say.
const [c1, s1, c3, s3] = [
  0.9807852804032304, 0.19509032201612825, 0.8314696123025452, 0.5555702330196022,
] as const;
const across = Float64Array.of(
  ...[c1, c3, s3, s1, -s1, -s3, -c3, -c1],
  ...[-c1, -c3, -s3, -s1, s1, s3, c3, c1],
);
const down = Float64Array.of(
  ...[s1, s3, c3, c1, c1, c3, s3, s1],
  ...[-s1, -s3, -c3, -c1, -c1, -c3, -s3, -s1],
);

// Over the root of the variance of such noise over a cell: 4 * A * B, where A is the integral of
// fade(t)^2 (1 - t)^2 and B that of fade(t)^2 from 0 to 1, which are 0.029692 and 0.391775.
const unscaled = 4.635833;

/**
 * Rise from 0 to 1 with neither slope nor bend at the ends.
 *
 * @param t - 0 to 1.
 * @returns `6t^5 - 15t^4 + 10t^3`.
 * @see Perlin 2002, Improving noise, ACM Transactions on Graphics 21
 */
export function fade(t: number): number {
  return t * t * t * (t * (t * 6 - 15) + 10);
}

/**
 * Tell how much noise a place gets: gradient noise of standard deviation `weight`, mean 0. It depends on
 * nothing but where on the wall the place lies.
 *
 * @param octave - Which noise.
 * @param x - Millimetres to the right of the datum.
 * @param y - Millimetres below it.
 * @returns Of either sign.
 */
export function noiseAt(octave: NoiseOctave, x: number, y: number): number {
  const { cell, weight, seed } = octave;
  const u = x / cell.x + shiftAt(0, seed);
  const v = y / cell.y + shiftAt(1, seed);
  const column = Math.floor(u);
  const row = Math.floor(v);
  const right = u - column;
  const below = v - row;
  const riseY = fade(below);
  const topLeft = cornerAt(octave, { column, row, right, below });
  const topRight = cornerAt(octave, { column: column + 1, row, right: right - 1, below });
  const footLeft = cornerAt(octave, { column, row: row + 1, right, below: below - 1 });
  const footRight = cornerAt(octave, {
    column: column + 1,
    row: row + 1,
    right: right - 1,
    below: below - 1,
  });
  const atLeft = topLeft + riseY * (footLeft - topLeft);
  const atRight = topRight + riseY * (footRight - topRight);
  return weight * unscaled * (atLeft + fade(right) * (atRight - atLeft));
}

// What a corner of the cells says of a place so far from it, in cells.
function cornerAt(
  octave: NoiseOctave,
  {
    column,
    row,
    right,
    below,
  }: {
    readonly column: number;
    readonly row: number;
    readonly right: number;
    readonly below: number;
  },
): number {
  const way = directionOf(octave, column, row);
  return across[way]! * right + down[way]! * below;
}

/**
 * Ready noise for row after row: the same as {@link noiseAt}, place by place, at a twentieth of the time.
 *
 * @param octave - Which noise.
 * @param run - Which places of each row.
 * @returns What adds it.
 */
export function createNoise(octave: NoiseOctave, run: NoiseRun): AddNoise {
  const { cell, weight } = octave;
  const { first, count, step, start } = run;
  const shiftX = shiftAt(0, octave.seed);
  const shiftY = shiftAt(1, octave.seed);
  const corners = new Int32Array(count);
  const offs = new Float32Array(count);
  const rises = new Float32Array(count);
  const origin = Math.floor((first * step + start) / cell.x + shiftX);
  for (let i = 0; i < count; i++) {
    const u = ((first + i) * step + start) / cell.x + shiftX;
    const column = Math.floor(u);
    corners[i] = column - origin;
    offs[i] = u - column;
    rises[i] = fade(u - column);
  }
  const wide = corners[count - 1]! + 2;
  const tops = new Uint8Array(wide);
  const feet = new Uint8Array(wide);
  const point = (ways: Uint8Array, row: number): void => {
    for (let i = 0; i < wide; i++) ways[i] = directionOf(octave, origin + i, row);
  };
  // What a corner and the one below it say along the row is a line: at + slope * (x - corner).
  const ats = new Float32Array(wide);
  const slopes = new Float32Array(wide);
  const scale = weight * unscaled;
  let held = NaN;
  return (y, out, { from, to }) => {
    if (from >= to) return;
    const v = y / cell.y + shiftY;
    const row = Math.floor(v);
    if (row !== held) {
      if (row === held + 1) tops.set(feet);
      else point(tops, row);
      point(feet, row + 1);
      held = row;
    }
    const fy = v - row;
    const rise = fade(fy);
    const last = corners[to - 1]! + 1;
    for (let i = corners[from]!; i <= last; i++) {
      const top = tops[i]!;
      const foot = feet[i]!;
      const above = down[top]! * fy;
      ats[i] = scale * (above + rise * (down[foot]! * (fy - 1) - above));
      slopes[i] = scale * (across[top]! + rise * (across[foot]! - across[top]!));
    }
    // What the corners of a cell say is looked up once for all of its places.
    let known = -1;
    let left = 0;
    let leftSlope = 0;
    let right = 0;
    let rightSlope = 0;
    for (let i = from; i < to; i++) {
      const at = corners[i]!;
      if (at !== known) {
        known = at;
        left = ats[at]!;
        leftSlope = slopes[at]!;
        rightSlope = slopes[at + 1]!;
        right = ats[at + 1]! - rightSlope;
      }
      const off = offs[i]!;
      const near = left + leftSlope * off;
      out[i]! += near + rises[i]! * (right + rightSlope * off - near);
    }
  };
}

// Which of the directions a corner of the cells has.
function directionOf({ wrap, seed }: NoiseOctave, column: number, row: number): number {
  const x = wrap.x > 0 ? around(column, wrap.x) : column;
  const y = wrap.y > 0 ? around(row, wrap.y) : row;
  return hashCell(x, y, seed) >>> 28;
}

// So that the cells of two octaves have no corner in common: right, and down.
function shiftAt(axis: 0 | 1, seed: number): number {
  return (hashCell(axis, 0, seed) >>> 8) / 2 ** 24;
}

function around(cell: number, count: number): number {
  return cell - Math.floor(cell / count) * count;
}
