import type { Point } from '../units/parse-point.js';
import { type Canvas, layStrokes } from './canvas.js';
import { dashPath } from './dash-path.js';
import { inks } from './inks.js';
import { layText } from './lay-text.js';
import type { Pens } from './pens.js';
import { type Sign, signWidth } from './plan-caption.js';
import type { PagePlan } from './plan-page.js';
import type { Path } from './trace-path.js';

/**
 * Draw the caption: words, and before some of them the sign they explain.
 *
 * @param canvas - Its page is changed.
 * @param plan - Where it lies, and what it says.
 * @param pens - Those of the photo, for the signs.
 */
export function layCaption(canvas: Canvas, plan: PagePlan, pens: Pens): void {
  const { caption, captionAt: at } = plan;
  const { unit } = canvas;
  for (const { x, y, size, text, sign } of caption.pieces) {
    const left = at.x + x;
    const foot = at.y + y;
    const room = sign === null ? 0 : signWidth * unit;
    if (sign !== null) laySign(canvas, sign, { x: left, y: foot - size / 2 }, pens);
    const width = Math.max(1.1, 0.13 * size);
    layStrokes(canvas, layText(text, { x: left + room, y: foot, size }), {
      width,
      ink: inks.dark,
    });
  }
}

// On paper as on the photo, but no thinner than a print holds.
function laySign(canvas: Canvas, sign: Sign, at: Point, pens: Pens): void {
  const { unit } = canvas;
  const pen = pens[penOf[sign]];
  layStrokes(canvas, shapeSign(sign, at, unit), {
    ink: pen.ink,
    casing: pen.casing ?? null,
    width: Math.max(pen.width, 1.4 * unit),
    out: Math.max(pen.out ?? 0, unit),
  });
}

const penOf = {
  bed: 'bed',
  bridged: 'bed',
  perpend: 'perpend',
  mark: 'mark',
  hatch: 'hatch',
} as const satisfies Record<Sign, keyof Pens>;

function shapeSign(sign: Sign, { x, y }: Point, unit: number): Path[] {
  const long = (signWidth - 8) * unit;
  const high = 5 * unit;
  const line: Path = [x, y, x + long, y];
  const middle = x + long / 2;
  switch (sign) {
    case 'bed':
      return [line];
    case 'bridged':
      return dashPath(line, 6 * unit, 5 * unit);
    case 'perpend':
      return [[middle, y - high, middle, y + high]];
    case 'mark':
      return [line, [x, y - high, x, y + high], [x + long, y - high, x + long, y + high]];
    case 'hatch':
      return [0, 5.5, 11, 16.5].map((right) => {
        const left = x + right * unit;
        return [left, y + high, left + 7 * unit, y - high];
      });
  }
}
