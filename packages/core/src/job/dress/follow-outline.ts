import { attributesOf } from '../../drawing/attributes-of.js';
import { BadDrawing } from '../../drawing/bad-drawing.js';
import type { Outline } from '../../drawing/dress/find-outlines.js';
import type { Drawing } from '../../drawing/drawing.js';
import type { Box } from '../../drawing/geometry/box.js';
import { followShape } from '../../drawing/outline/follow-shape.js';
import { boxOfLoops, type PartOutline } from '../../fill/outline/part-outline.js';
import { applyTo, invert, type Matrix } from '../../numeric/matrix.js';
import type { LaidOutline } from './dress-plan.js';

/** An outline as it lies along its courses. */
export interface Followed {
  /** What bounds it, mm of paper from the datum. */
  readonly shape: PartOutline;
  /** Round it. */
  readonly box: Box;
}

/** How an outline is followed. */
export interface FollowOutlineOptions {
  /** The drawing. */
  readonly drawing: Drawing;
  /** How far chords may be off a curve, mm. */
  readonly tolerance: number;
}

/**
 * Find how paper lies along an outline's courses.
 *
 * @param laid - The outline, with its dots.
 * @param dot - Mm to a dot.
 * @returns From mm of the drawing's paper to those along the courses, from the datum.
 */
export function frameOf(laid: LaidOutline, dot: number): Matrix {
  const [a, b, c, d, e, f] = invert(laid.lattice.matrix) ?? [1, 0, 0, 1, 0, 0];
  return [a * dot, b * dot, c * dot, d * dot, e * dot, f * dot];
}

/**
 * Follow an outline along its courses.
 *
 * @param outline - Of a drawing.
 * @param frame - From paper to along its courses.
 * @param options - How closely.
 * @returns What bounds it; nothing where it cannot be read.
 */
export function followOutline(
  outline: Outline,
  frame: Matrix,
  options: FollowOutlineOptions,
): Followed {
  const loops = inFrame(readLoops(outline, options, followShape), frame);
  return { shape: { loops, rule: outline.rule }, box: boxOfLoops(loops) };
}

/**
 * Read the lines of an outline.
 *
 * @param outline - Of a drawing.
 * @param options - How closely.
 * @param by - What follows it.
 * @returns Points x, y, x, y…, mm of paper; none where it cannot be read, which is told elsewhere.
 */
export function readLoops(
  outline: Outline,
  options: FollowOutlineOptions,
  by: typeof followShape,
): readonly Float64Array[] {
  const { element, matrix, viewport } = outline;
  const attributes = attributesOf(options.drawing, element);
  try {
    return by({ name: element.name, attributes, matrix, viewport }, options.tolerance);
  } catch (cause) {
    if (cause instanceof BadDrawing) return [];
    throw cause;
  }
}

/**
 * Bring lines to another frame.
 *
 * @param loops - Points x, y, x, y….
 * @param frame - From theirs.
 * @returns The same there.
 */
export function inFrame(loops: readonly Float64Array[], frame: Matrix): readonly Float64Array[] {
  return loops.map((loop) => {
    const out = new Float64Array(loop.length);
    for (let i = 0; i < loop.length; i += 2) {
      const { x, y } = applyTo(frame, { x: loop[i]!, y: loop[i + 1]! });
      out[i] = x;
      out[i + 1] = y;
    }
    return out;
  });
}
