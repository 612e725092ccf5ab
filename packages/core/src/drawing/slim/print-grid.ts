import type { Matrix } from '../../numeric/matrix.js';

/** The printer's dots as seen from a picture, along one of its axes. */
export interface PrintGrid {
  /** Pixels of the picture to a dot. */
  readonly pitch: number;
  /** Where a dot begins, in pixels: 0 or more, under `pitch`. */
  readonly phase: number;
}

/** Along both. */
export interface PrintGrids {
  /** Along its rows. */
  readonly x: PrintGrid;
  /** Along its columns. */
  readonly y: PrintGrid;
}

// Of a dot: less is not seen.
const near = 0.05;

function gridOf(scale: number, offset: number, dot: number): PrintGrid {
  const pitch = dot / Math.abs(scale);
  const start = -offset / scale;
  return { pitch, phase: start - Math.floor(start / pitch) * pitch };
}

/**
 * Where the dots of a print fall on a picture that lies along the paper's axes.
 *
 * @param matrix - From its pixels to millimetres of paper.
 * @param dot - Millimetres to a dot.
 * @returns Them, or null where it lies askew.
 */
export function printGrids(matrix: Matrix, dot: number): PrintGrids | null {
  const [a, b, c, d, e, f] = matrix;
  const small = 1e-9 * Math.max(...[a, b, c, d].map(Math.abs));
  if (Math.abs(b) <= small && Math.abs(c) <= small) {
    return { x: gridOf(a, e, dot), y: gridOf(d, f, dot) };
  }
  if (Math.abs(a) <= small && Math.abs(d) <= small) {
    return { x: gridOf(b, f, dot), y: gridOf(c, e, dot) };
  }
  return null;
}

/**
 * Whether the dots of two places fall alike on a picture, all along it.
 *
 * @param one - At a place.
 * @param other - At another.
 * @param length - Pixels of the picture along this axis.
 * @returns Yes where they stay within a twentieth of a dot.
 */
export function isSameGrid(one: PrintGrid, other: PrintGrid, length: number): boolean {
  const dots = length / one.pitch;
  if (!(Math.abs(other.pitch / one.pitch - 1) * dots < near)) return false;
  const apart = Math.abs(one.phase - other.phase) / one.pitch;
  return Math.min(apart, 1 - apart) < near;
}
