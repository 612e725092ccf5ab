import type { Box } from '../geometry/box.js';
import type { PrintGrid, PrintGrids } from './print-grid.js';

/** New pixels along an axis of old ones. */
export interface PlannedSpan {
  /** Where the first begins, in old pixels; under 0 where it reaches past the edge. */
  readonly start: number;
  /** Old pixels to a new one, 1 or more. */
  readonly pitch: number;
  /** New pixels. */
  readonly count: number;
}

/** Along both axes. */
export interface Spans {
  /** Along rows. */
  readonly x: PlannedSpan;
  /** Along columns. */
  readonly y: PlannedSpan;
}

/** Pixels of a picture. */
export interface PixelSize {
  /** Columns. */
  readonly width: number;
  /** Rows. */
  readonly height: number;
}

/** A number for each axis. */
export interface PerAxis {
  /** Along rows. */
  readonly x: number;
  /** Along columns. */
  readonly y: number;
}

// Cut where a renderer that halves a picture again and again to show it smaller would still halve the
// same pixels together: elsewhere what it shows differs by a mean CIEDE2000 of 0.8.
const block = 16;

/**
 * Plan a picture halved, once or more, or only cut.
 *
 * @param box - What is to be kept, in its pixels.
 * @param size - Its columns and rows.
 * @param by - How many times, along each axis.
 * @returns Each new pixel over 2, 4, 8, … old ones.
 */
export function halvedSpans(box: Box, size: PixelSize, by: PerAxis): Spans {
  return {
    x: halvedSpan(box.x0, box.x1, size.width, 2 ** by.x),
    y: halvedSpan(box.y0, box.y1, size.height, 2 ** by.y),
  };
}

// What is left over at the picture's edge is shared out among all, as programs do.
function halvedSpan(low: number, high: number, length: number, step: number): PlannedSpan {
  const whole = Math.max(block, step);
  const start = Math.floor(low / whole) * whole;
  const end = Math.min(length, Math.ceil(high / whole) * whole);
  const count = Math.max(1, Math.floor((end - start) / step));
  return { start, pitch: (end - start) / count, count };
}

/**
 * Plan a picture on the dots of the print.
 *
 * @param box - What is to be kept, in its pixels.
 * @param grids - Where the dots fall.
 * @returns A new pixel a dot that it touches; as it is along an axis where its own are no finer.
 */
export function alignedSpans(box: Box, grids: PrintGrids): Spans {
  return { x: alignedSpan(box.x0, box.x1, grids.x), y: alignedSpan(box.y0, box.y1, grids.y) };
}

// A hair of a dot is no dot.
const hair = 0.02;

function alignedSpan(low: number, high: number, { pitch, phase }: PrintGrid): PlannedSpan {
  if (pitch <= 1)
    return { start: Math.floor(low), pitch: 1, count: Math.ceil(high) - Math.floor(low) };
  const first = Math.floor((low - phase) / pitch + hair);
  const last = Math.ceil((high - phase) / pitch - hair);
  return { start: first * pitch + phase, pitch, count: Math.max(1, last - first) };
}

/**
 * Where new pixels end.
 *
 * @param span - Of them.
 * @returns In old pixels.
 */
export function endOf(span: PlannedSpan): number {
  const { start, pitch, count } = span;
  return start + pitch * count;
}

/**
 * Whether new pixels reach past the edge of the picture.
 *
 * @param spans - Of them.
 * @param size - The picture's columns and rows.
 * @returns Yes where they do by more than a hair.
 */
export function reachesPast(spans: Spans, size: PixelSize): boolean {
  const past = (span: PlannedSpan, length: number): boolean =>
    span.start < -hair * span.pitch || endOf(span) > length + hair * span.pitch;
  return past(spans.x, size.width) || past(spans.y, size.height);
}

/**
 * Whether new pixels leave out part of the picture.
 *
 * @param spans - Of them.
 * @param size - The picture's columns and rows.
 * @returns Yes where they do by more than a hair.
 */
export function leavesOut(spans: Spans, size: PixelSize): boolean {
  const leaves = (span: PlannedSpan, length: number): boolean =>
    span.start > hair * span.pitch || endOf(span) < length - hair * span.pitch;
  return leaves(spans.x, size.width) || leaves(spans.y, size.height);
}
