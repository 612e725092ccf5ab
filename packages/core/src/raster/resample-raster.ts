import { outOfRange } from '../errors/out-of-range.js';
import { axisWeights, type AxisWeights, type ResampleKernel } from './axis-weights.js';
import { type LineSource, toLines } from './line-source.js';
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
  return resampleLines(toLines(raster), options);
}

/**
 * The same of a picture that is never held in linear light.
 *
 * @param lines - The picture.
 * @param options - As for {@link resampleRaster}.
 * @returns The same raster.
 * @throws RangeError when a size or the window makes no sense.
 */
export function resampleLines(lines: LineSource, options: ResampleOptions): Raster {
  const { width, height, wrap = { x: false, y: false } } = options;
  const { window = { x: 0, y: 0, width: lines.width, height: lines.height } } = options;
  const out = createRaster(width, height);
  checkAxis(window.x, window.width, { size: width, length: wrap.x ? Infinity : lines.width });
  checkAxis(window.y, window.height, { size: height, length: wrap.y ? Infinity : lines.height });
  const across = weigh(lines.width, window.x, window.width, { size: width, wrap: wrap.x });
  const down = weigh(lines.height, window.y, window.height, { size: height, wrap: wrap.y });
  const line = new Float64Array(lines.width);
  // All channels of a line together: its source may have to make it.
  for (let y = 0; y < height; y++) {
    for (const channel of [0, 1, 2] as const) {
      const to = out.planes[channel].subarray(y * width, (y + 1) * width);
      gatherRows((row) => lines.line(channel, row), down, { y, line });
      gatherColumns(line, across, to);
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
  lineAt: (row: number) => Float32Array,
  down: Weighed,
  to: { readonly y: number; readonly line: Float64Array },
): void {
  const { y, line } = to;
  const { taps, indices, weights, near } = down;
  let first = y * taps;
  let last = first + taps - 1;
  while (first < last && weights[first] === 0) first++;
  while (first < last && weights[last] === 0) last--;
  // Four rows a pass, the last of them again, of weight 0, where there are fewer: the line is fetched
  // and stored a quarter as often, which is half the time.
  for (let tap = first; tap <= last; tap += 4) {
    const [j, k, l] = [Math.min(tap + 1, last), Math.min(tap + 2, last), Math.min(tap + 3, last)];
    const [a, b] = [lineAt(indices[tap]!), lineAt(indices[j]!)];
    const [c, d] = [lineAt(indices[k]!), lineAt(indices[l]!)];
    const p = weights[tap]!;
    const q = j > tap ? weights[j]! : 0;
    const r = k > j ? weights[k]! : 0;
    const s = l > k ? weights[l]! : 0;
    const kept = tap === first ? 0 : 1;
    for (let x = 0; x < line.length; x++) {
      line[x] = kept * line[x]! + p * a[x]! + q * b[x]! + r * c[x]! + s * d[x]!;
    }
  }
  if (near !== null) holdRows(lineAt, near, to);
}

function holdRows(
  lineAt: (row: number) => Float32Array,
  near: Int32Array,
  { y, line }: { readonly y: number; readonly line: Float64Array },
): void {
  const [a, b] = [lineAt(near[4 * y]!), lineAt(near[4 * y + 1]!)];
  const [c, d] = [lineAt(near[4 * y + 2]!), lineAt(near[4 * y + 3]!)];
  for (let x = 0; x < line.length; x++) {
    const low = Math.min(a[x]!, b[x]!, c[x]!, d[x]!);
    const high = Math.max(a[x]!, b[x]!, c[x]!, d[x]!);
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
