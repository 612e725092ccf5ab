import type { Measurement } from '../surface/measurement.js';
import { formatLength } from '../units/format-length.js';
import type { Point } from '../units/parse-point.js';
import { type Canvas, layStrokes } from './canvas.js';
import { labelLine } from './label-line.js';
import type { Pens } from './pens.js';
import type { Path } from './trace-path.js';
import { levelToPage, lineOnPage, photoToLevel, type WallFrame } from './wall-frame.js';

/** A rectangle that a person marked. */
export interface MarkedRectangle {
  /** Its corners on the photo, in order round it. */
  readonly corners: readonly Point[];
  /** The measurement it led to. */
  readonly measurement: Measurement;
}

/**
 * Draw a marked rectangle with the length of each of its sides.
 *
 * @param canvas - Its page is changed.
 * @param frame - How the wall lies on it.
 * @param rectangle - Its corners on the photo, and the measurement it led to.
 * @param pens - With what.
 */
export function markCorners(
  canvas: Canvas,
  frame: WallFrame,
  rectangle: MarkedRectangle,
  pens: Pens,
): void {
  const { corners, measurement } = rectangle;
  const { mmPerPx } = measurement;
  const level = corners.map((corner) => photoToLevel(frame, corner));
  const lines: Path[] = [];
  const words: Path[] = [];
  for (const [i, from] of level.entries()) {
    const to = level[(i + 1) % level.length] ?? from;
    const line = lineOnPage(frame, from, to);
    const long = Math.hypot((to.x - from.x) * mmPerPx.x, (to.y - from.y) * mmPerPx.y);
    lines.push(line, ringAt(levelToPage(frame, from), 4 * canvas.unit));
    words.push(...labelLine(canvas, line, formatLength(long)));
  }
  layStrokes(canvas, lines, pens.mark);
  layStrokes(canvas, words, pens.label);
}

function ringAt({ x, y }: Point, radius: number): Path {
  const ring: number[] = [];
  for (let i = 0; i <= 24; i++) {
    const angle = (i * Math.PI) / 12;
    ring.push(x + radius * Math.cos(angle), y + radius * Math.sin(angle));
  }
  return ring;
}
