import { outOfRange } from '../errors/out-of-range.js';
import { axisWeights, type AxisWeights, type ResampleKernel } from './axis-weights.js';
import { createRaster, type Raster } from './raster.js';

/** What {@link resampleRaster} makes, and of what. */
export interface ResampleOptions {
  /** Columns of the new picture, a whole number of 1 or more. */
  readonly width: number;
  /** Rows of the new picture, a whole number of 1 or more. */
  readonly height: number;
  /** The part of the picture to bring to that size, seldom whole; all of it unless told. */
  readonly window?: {
    /** Left edge: column i covers i to i + 1. */
    readonly x: number;
    /** Top edge. */
    readonly y: number;
    /** Columns, above 0. */
    readonly width: number;
    /** Rows, above 0. */
    readonly height: number;
  };
  /** Whether the picture goes on with its other side past its edge: then a window may leave it. */
  readonly wrap?: {
    /** Left and right. */
    readonly x: boolean;
    /** Top and bottom. */
    readonly y: boolean;
  };
}

// Below this many samples a pixel, whole boxes would beat against the samples: sharp here, soft there.
const leastAreaStep = 1.5;

/**
 * Bring a picture, or a window of it, to another size: in linear light, each axis by its own
 * factor, with the window's exact phase. Going well down every new pixel is the mean of the area it
 * covers; else it is interpolated by a Lanczos kernel whose ringing is held within what lies near.
 *
 * @param raster - The picture, left as it is.
 * @param options - The new size, the window, and whether the picture wraps.
 * @returns A raster of its own; its mean is that of the window.
 * @throws RangeError when a size or the window makes no sense.
 */
export function resampleRaster(raster: Raster, options: ResampleOptions): Raster {
  const { width, height, wrap = { x: false, y: false } } = options;
  const { window = { x: 0, y: 0, width: raster.width, height: raster.height } } = options;
  const out = createRaster(width, height);
  checkAxis(window.x, window.width, { size: width, length: wrap.x ? Infinity : raster.width });
  checkAxis(window.y, window.height, { size: height, length: wrap.y ? Infinity : raster.height });
  const across = weigh(raster.width, window.x, window.width, { size: width, wrap: wrap.x });
  const down = weigh(raster.height, window.y, window.height, { size: height, wrap: wrap.y });
  const line = new Float64Array(raster.width);
  for (let channel = 0; channel < 3; channel++) {
    const from = raster.planes[channel]!;
    const to = out.planes[channel]!;
    for (let y = 0; y < height; y++) {
      gatherRows(from, down, { y, line });
      gatherColumns(line, across, to.subarray(y * width, (y + 1) * width));
    }
  }
  return out;
}

function checkAxis(
  start: number,
  extent: number,
  to: { readonly size: number; readonly length: number },
): void {
  // Half a new pixel of grace, made of the edge: an exact factor seldom ends on a whole pixel.
  const grace = (0.5 * extent) / to.size + 1e-6;
  const fits = to.length === Infinity || (start >= -grace && start + extent <= to.length + grace);
  if (!(extent > 0 && Number.isFinite(start) && Number.isFinite(extent) && fits)) {
    throw outOfRange(
      `a window inside ${to.length} pixels`,
      'window',
      `${start} to ${start + extent}`,
    );
  }
}

interface Weighed extends AxisWeights {
  // The four samples nearest each new pixel, or null where nothing can ring.
  readonly near: Int32Array | null;
}

function weigh(
  length: number,
  start: number,
  extent: number,
  to: { readonly size: number; readonly wrap: boolean },
): Weighed {
  const step = extent / to.size;
  // Whole pixels onto whole pixels: the box is one sample, nothing is interpolated.
  const copies = Math.abs(step - 1) < 1e-9 && Math.abs(start - Math.round(start)) < 1e-9;
  const kernel: ResampleKernel = copies || step >= leastAreaStep ? 'area' : 'lanczos';
  const axis = axisWeights({ length, start, extent, kernel, ...to });
  if (kernel === 'area') return { ...axis, near: null };
  const near = new Int32Array(4 * to.size);
  for (let i = 0; i < to.size; i++) {
    const first = Math.floor(start + (i + 0.5) * step - 0.5) - 1;
    for (let tap = 0; tap < 4; tap++) {
      const at = first + tap;
      near[4 * i + tap] = to.wrap
        ? at - Math.floor(at / length) * length
        : Math.min(length - 1, Math.max(0, at));
    }
  }
  return { ...axis, near };
}

// One line of the new picture, still as wide as the old one.
function gatherRows(
  from: Float32Array,
  down: Weighed,
  to: { readonly y: number; readonly line: Float64Array },
): void {
  const { y, line } = to;
  const { taps, indices, weights, near } = down;
  const size = line.length;
  const rows: number[] = [];
  for (let tap = y * taps; tap < (y + 1) * taps; tap++) if (weights[tap] !== 0) rows.push(tap);
  line.fill(0);
  // Four rows a pass: the line is fetched and stored a quarter as often, which is half the time.
  let next = 0;
  for (; next + 4 <= rows.length; next += 4) {
    const [i, j, k, l] = [rows[next]!, rows[next + 1]!, rows[next + 2]!, rows[next + 3]!];
    const [p, q, r, s] = [weights[i]!, weights[j]!, weights[k]!, weights[l]!];
    let at = indices[i]! * size;
    const [toSecond, toThird, toFourth] = [
      indices[j]! * size - at,
      indices[k]! * size - at,
      indices[l]! * size - at,
    ];
    for (let x = 0; x < size; x++, at++) {
      line[x]! +=
        p * from[at]! +
        q * from[at + toSecond]! +
        r * from[at + toThird]! +
        s * from[at + toFourth]!;
    }
  }
  for (; next < rows.length; next++) {
    const weight = weights[rows[next]!]!;
    let at = indices[rows[next]!]! * size;
    for (let x = 0; x < size; x++) line[x]! += weight * from[at++]!;
  }
  if (near === null) return;
  const [a, b, c, d] = [near[4 * y]!, near[4 * y + 1]!, near[4 * y + 2]!, near[4 * y + 3]!];
  for (let x = 0; x < size; x++) {
    const low = Math.min(
      from[a * size + x]!,
      from[b * size + x]!,
      from[c * size + x]!,
      from[d * size + x]!,
    );
    const high = Math.max(
      from[a * size + x]!,
      from[b * size + x]!,
      from[c * size + x]!,
      from[d * size + x]!,
    );
    line[x] = hold(line[x]!, low, high);
  }
}

function gatherColumns(line: Float64Array, across: Weighed, out: Float32Array): void {
  const { taps, indices, weights, near } = across;
  const size = out.length;
  let tap = 0;
  for (let x = 0; x < size; x++) {
    let sum = 0;
    for (const end = tap + taps; tap < end; tap++) sum += weights[tap]! * line[indices[tap]!]!;
    out[x] = sum;
  }
  if (near === null) return;
  for (let x = 0, at = 0; x < size; x++, at += 4) {
    const a = line[near[at]!]!;
    const b = line[near[at + 1]!]!;
    const c = line[near[at + 2]!]!;
    const d = line[near[at + 3]!]!;
    out[x] = hold(out[x]!, Math.min(a, b, c, d), Math.max(a, b, c, d));
  }
}

// A Lanczos kernel rings beside hard edges: a tenth of the local range is as far as it may go.
function hold(value: number, low: number, high: number): number {
  const slack = 0.1 * (high - low);
  if (value < low - slack) return low - slack;
  if (value > high + slack) return high + slack;
  return value;
}
