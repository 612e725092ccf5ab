import { outOfRange } from '../errors/out-of-range.js';
import { axisWeights, type AxisWeights, type ResampleKernel } from './axis-weights.js';
import { type LineSource, toLines } from './line-source.js';
import { narrowLines } from './narrow-lines.js';
import { createRaster, type Raster } from './raster.js';
import { sumLines } from './sum-lines.js';

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
  if (across.near === null && down.near === null) {
    // Nothing can ring, so columns may go first: a line is then a fraction of what it was, and made once.
    const narrowed = lines.narrowed?.(across) ?? narrowLines(lines, across);
    sumLines(narrowed, down, out);
    return out;
  }
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
  // A band's step differs from the whole picture's by rounding, and takes the same kernel.
  const kernel: ResampleKernel = copies || step >= leastAreaStep - 1e-9 ? 'area' : 'lanczos';
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
  for (let tap = first; tap <= last; tap += 6) {
    // The last of them again, of weight 0, where there are fewer.
    const row = (i: number): Float32Array => lineAt(indices[Math.min(tap + i, last)]!);
    const share = (i: number): number => (tap + i <= last ? weights[tap + i]! : 0);
    const rows = [row(0), row(1), row(2), row(3), row(4), row(5)] as const;
    const shares = [share(0), share(1), share(2), share(3), share(4), share(5)] as const;
    if (tap > first) addRows(line, rows, shares);
    else if (!sumBlock(line, rows, shares)) {
      line.fill(0);
      addRows(line, rows, shares);
    }
  }
  if (near !== null) holdRows(lineAt, near, to);
}

type Six<Item> = readonly [Item, Item, Item, Item, Item, Item];

// Six rows a pass: the line is fetched and stored a sixth as often, which is half the time.
function addRows(line: Float64Array, rows: Six<Float32Array>, shares: Six<number>): void {
  const [a, b, c, d, e, f] = rows;
  const [p, q, r, s, t, u] = shares;
  for (let x = 0; x < line.length; x++) {
    const half = line[x]! + p * a[x]! + q * b[x]! + r * c[x]!;
    line[x] = half + s * d[x]! + t * e[x]! + u * f[x]!;
  }
}

// The same, to begin with, of rows that lie in one memory, as those of a raster do: with one array to
// keep at hand it takes half the time again. False where they do not.
function sumBlock(line: Float64Array, rows: Six<Float32Array>, shares: Six<number>): boolean {
  const { buffer } = rows[0];
  if (rows.some((row) => row.buffer !== buffer)) return false;
  const [a, b, c, d, e, f] = rows.map((row) => row.byteOffset / 4) as unknown as Six<number>;
  const [p, q, r, s, t, u] = shares;
  // A memory that holds more than samples may end within one.
  const block = new Float32Array(buffer, 0, Math.floor(buffer.byteLength / 4));
  for (let x = 0; x < line.length; x++) {
    const half = p * block[x + a]! + q * block[x + b]! + r * block[x + c]!;
    line[x] = half + s * block[x + d]! + t * block[x + e]! + u * block[x + f]!;
  }
  return true;
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
  for (let x = 0, tap = 0; x < size; x++) {
    const end = tap + taps;
    let at = indices[tap]!;
    let sum = 0;
    if (indices[end - 1]! - at === taps - 1) {
      // Side by side, as all are but those at an edge.
      while (tap < end) sum += weights[tap++]! * line[at++]!;
    } else {
      while (tap < end) sum += weights[tap]! * line[indices[tap++]!]!;
    }
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
