import { formatLength } from '../units/format-length.js';
import { inDigits } from '../units/in-digits.js';
import type { Point } from '../units/parse-point.js';
import { type Canvas, layStrokes } from './canvas.js';
import { dashPath } from './dash-path.js';
import { labelLine, turnOf } from './label-line.js';
import type { MarkedSpan } from './overlay-content.js';
import type { Pens } from './pens.js';
import type { Path } from './trace-path.js';
import { levelToPage, lineOnPage, photoToLevel, type WallFrame } from './wall-frame.js';

/**
 * Draw the lines that a person marked: end marks, a tick for each course counted, and in words how
 * long each is and how far it disagrees with the others.
 *
 * @param canvas - Its page is changed.
 * @param frame - How the wall lies on it.
 * @param spans - The lines.
 * @param pens - With what.
 */
export function markSpans(
  canvas: Canvas,
  frame: WallFrame,
  spans: readonly MarkedSpan[],
  pens: Pens,
): void {
  const { unit } = canvas;
  const lines: Path[] = [];
  const words: Path[] = [];
  for (const [i, span] of spans.entries()) {
    const from = photoToLevel(frame, span.from);
    const to = photoToLevel(frame, span.to);
    const line = lineOnPage(frame, from, to);
    const turn = turnOf(line);
    const parts = span.courses ?? 1;
    lines.push(...(span.used ? [line] : dashPath(line, 7 * unit, 7 * unit)));
    for (let part = 0; part <= parts; part++) {
      const t = part / parts;
      const at = levelToPage(frame, {
        x: from.x + t * (to.x - from.x),
        y: from.y + t * (to.y - from.y),
      });
      lines.push(crossAt(at, turn, (part % parts === 0 ? 11 : 5) * unit));
    }
    const name = spans.length > 1 ? `span ${i + 1}: ` : '';
    words.push(...labelLine(canvas, line, `${name}${spanInWords(span)}`));
  }
  layStrokes(canvas, lines, pens.mark);
  layStrokes(canvas, words, pens.label);
}

function spanInWords({ length, residualPercent, courses, used }: MarkedSpan): string {
  const said = [
    length === null ? null : formatLength(length),
    courses === null ? null : `${courses} courses`,
    residualPercent === null ? null : residualInWords(residualPercent),
    used ? null : 'left out',
  ];
  return said.filter((word) => word !== null).join(', ');
}

function residualInWords(percent: number): string {
  if (Math.abs(percent) < 0.005) return 'as measured';
  return `${inDigits(Math.abs(percent), 2)} % ${percent < 0 ? 'under' : 'over'}`;
}

function crossAt({ x, y }: Point, turn: number, half: number): Path {
  const [u, v] = [-half * Math.sin(turn), half * Math.cos(turn)];
  return [x - u, y - v, x + u, y + v];
}
