import type { Measurement } from '../surface/measurement.js';
import { inDigits, uncertaintyInWords } from '../units/in-digits.js';
import type { Point } from '../units/parse-point.js';
import { type Canvas, layAreas, layStrokes } from './canvas.js';
import { inks } from './inks.js';
import { layText, textWidth } from './lay-text.js';
import type { Pens } from './pens.js';
import { barHalf, placeScale } from './place-scale.js';
import type { Path } from './trace-path.js';
import type { WallFrame } from './wall-frame.js';

/**
 * Draw a scale bar, where one fits, with its length and how far that may be out.
 *
 * @param canvas - Its page is changed.
 * @param frame - How the wall lies on it.
 * @param measurement - Of the photo.
 * @param pens - With what its words are written.
 */
export function markScale(
  canvas: Canvas,
  frame: WallFrame,
  measurement: Measurement,
  pens: Pens,
): void {
  const { unit, photo } = canvas;
  const bar = placeScale(canvas, frame, measurement);
  if (bar === null) return;
  const parts: Path[] = [];
  for (let i = 0; i + 1 < bar.marks.length; i++) {
    parts.push(thicken(bar.marks[i]!, bar.marks[i + 1]!, barHalf * unit));
  }
  const outline = { width: 0, clip: photo, casing: inks.dark, out: 1.5 * unit };
  layAreas(canvas, parts, { ...outline, ink: inks.paper });
  layAreas(
    canvas,
    parts.filter((_, i) => i % 2 === 0),
    { width: 0, clip: photo, ink: inks.dark },
  );
  const { from, to } = bar;
  const length = barInWords(bar.mm);
  const sure = `, give or take ${uncertaintyInWords(measurement.uncertaintyPercent)} %`;
  const size = 15 * unit;
  const turn = Math.atan2(to.y - from.y, to.x - from.x);
  const above = (barHalf + 7) * unit;
  const foot = { x: from.x + above * Math.sin(turn), y: from.y - above * Math.cos(turn) };
  const head = textWidth(length, size) + 2 * unit;
  const small = 11 * unit;
  const fits = from.x + head + textWidth(sure, small) < photo.x + photo.width - 6 * unit;
  layStrokes(canvas, layText(length, { ...foot, size, turn }), {
    ...pens.label,
    width: 2 * unit,
  });
  if (!fits) return;
  const next = {
    x: foot.x + head * Math.cos(turn),
    y: foot.y + head * Math.sin(turn),
  };
  layStrokes(canvas, layText(sure, { ...next, size: small, turn }), pens.label);
}

function thicken(a: Point, b: Point, by: number): Path {
  const length = Math.hypot(b.x - a.x, b.y - a.y) || 1;
  const nx = (-by * (b.y - a.y)) / length;
  const ny = (by * (b.x - a.x)) / length;
  return [a.x + nx, a.y + ny, b.x + nx, b.y + ny, b.x - nx, b.y - ny, a.x - nx, a.y - ny];
}

// Metres from a tenth of one up, millimetres below.
function barInWords(mm: number): string {
  return mm < 100 ? `${inDigits(mm)} mm` : `${inDigits(mm / 1000)} m`;
}
