import { quantile } from '../inspect/quantile.js';
import type { PatchSource } from './take-patch.js';

/** How much each place of a photo catches the eye. */
export interface Marks {
  /** Pixels to a cell each way. */
  readonly cell: number;
  /** Cells across. */
  readonly columns: number;
  /** Cells down. */
  readonly rows: number;
  /** Cell by cell: 0 for what is ordinary, 1 for a mark, up to 5. */
  readonly strength: Float32Array;
}

// Cells to the photo's smaller side, and parts of a cell each way. A mark is as large as so many parts.
const cells = 32;
const parts = 4;
const sizes = [1, 2, 4, 12] as const;
// What is this many times as far from the middle as 19 places in 20 begins to catch the eye; so much further
// it is a mark, and beyond so many of that all are alike.
const unusual = 1.35;
const surely = 0.75;
const most = 5;
const ordinaryShare = 0.95;
// Square roots of light: less is never seen.
const leastOrdinary = 0.02;

/**
 * See what in a photo catches the eye, and would be seen to come again: specks, blots, and wider stains.
 *
 * @param source - The photo.
 * @returns Cell by cell, how much it does.
 */
export function seeMarks(source: PatchSource): Marks {
  const { width, height, roots } = source;
  const cell = Math.max(parts, parts * Math.round(Math.min(width, height) / cells / parts));
  const part = cell / parts;
  const fine = { columns: Math.floor(width / part), rows: Math.floor(height / part) };
  const columns = Math.max(1, Math.ceil(fine.columns / parts));
  const rows = Math.max(1, Math.ceil(fine.rows / parts));
  const strength = new Float32Array(columns * rows);
  for (const plane of toAxes(roots.map((root) => meansOf(root, width, { part, ...fine })))) {
    for (const size of sizes) {
      const odd = oddness(size === 1 ? plane : boxed(plane, fine, size));
      for (let y = 0, i = 0; y < fine.rows; y++) {
        const row = Math.floor(y / parts) * columns;
        for (let x = 0; x < fine.columns; x++, i++) {
          const at = row + Math.floor(x / parts);
          strength[at] = Math.max(strength[at]!, odd[i]!);
        }
      }
    }
  }
  return { cell, columns, rows, strength };
}

interface Grid {
  readonly columns: number;
  readonly rows: number;
}

function meansOf(
  root: Float32Array,
  width: number,
  { part, columns, rows }: Grid & { readonly part: number },
): Float64Array {
  const out = new Float64Array(columns * rows);
  for (let y = 0; y < rows * part; y++) {
    const to = Math.floor(y / part) * columns;
    const from = y * width;
    for (let x = 0; x < columns * part; x++) out[to + Math.floor(x / part)]! += root[from + x]!;
  }
  return out.map((sum) => sum / (part * part));
}

// Lightness, and colour in two ways.
function toAxes([red, green, blue]: readonly Float64Array[]): Float64Array[] {
  if (red === undefined || green === undefined || blue === undefined) return [];
  return [
    green.map((value, i) => (value + red[i]! + blue[i]!) / 3),
    green.map((value, i) => red[i]! - value),
    green.map((value, i) => blue[i]! - value),
  ];
}

function boxed(plane: Float64Array, { columns, rows }: Grid, size: number): Float64Array {
  const across = runs(plane, { count: rows, step: columns, length: columns, stride: 1 }, size);
  return runs(across, { count: columns, step: 1, length: rows, stride: columns }, size);
}

interface Lines {
  readonly count: number;
  readonly step: number;
  readonly length: number;
  readonly stride: number;
}

// Means along lines over so many places about each, fewer at the ends.
function runs(plane: Float64Array, lines: Lines, size: number): Float64Array {
  const { count, step, length, stride } = lines;
  const out = new Float64Array(plane.length);
  const sums = new Float64Array(length + 1);
  for (let line = 0; line < count; line++) {
    const start = line * step;
    for (let i = 0; i < length; i++) sums[i + 1] = sums[i]! + plane[start + i * stride]!;
    for (let i = 0; i < length; i++) {
      const from = Math.max(0, i - (size >> 1));
      const to = Math.min(length, i - (size >> 1) + size);
      out[start + i * stride] = (sums[to]! - sums[from]!) / (to - from);
    }
  }
  return out;
}

function oddness(plane: Float64Array): Float64Array {
  const middle = quantile(plane, 0.5);
  const off = plane.map((value) => Math.abs(value - middle));
  const ordinary = quantile(off, ordinaryShare) + leastOrdinary;
  return off.map((value) => Math.min(most, Math.max(0, (value / ordinary - unusual) / surely)));
}
