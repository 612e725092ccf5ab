import type { Size } from '../units/parse-size.js';
import type { PageLine, PagePoint, PageText } from '../page/page.js';

/** The bars that a print is checked by. */
export interface CheckBars {
  /** The bars and their ticks. */
  readonly lines: readonly PageLine[];
  /** What they should measure, and what to do where they do not. */
  readonly texts: readonly PageText[];
}

/** Width of the strips along the left and the foot of a page that the bars stand in, mm. */
export const barStrip = 6.5;

const longest = 100;
const step = 10;
const stroke = 0.15;
const size = 1.6;

/**
 * Lay a bar of 100 mm, or of as many tens as fit, along the foot of a page and one along its left.
 *
 * @param page - Its size in mm.
 * @param margin - What the printer cannot reach, mm.
 * @param footer - What else the foot says, at its right.
 * @returns What to draw.
 */
export function layBars(page: Size<number>, margin: number, footer: string): CheckBars {
  const foot = { x: margin + barStrip, y: page.height - margin - 1 };
  const side = { x: margin + 1, y: page.height - margin - barStrip };
  const across = Math.min(longest, tens(page.width - margin - foot.x));
  const down = Math.min(longest, tens(side.y - margin));
  const toRight = (along: number, out: number): PagePoint => ({
    x: foot.x + along,
    y: foot.y - out,
  });
  const upwards = (along: number, out: number): PagePoint => ({
    x: side.x + out,
    y: side.y - along,
  });
  const lines = [...barLines(across, toRight), ...barLines(down, upwards)];
  const advice = (length: number, axis: 'x' | 'y'): string =>
    `${length} mm: measure it, and where it is not, print again with --printer-${axis} ${length === longest ? 'and what it measures' : 'and per cent of it'}`;
  const texts: PageText[] = [
    { text: advice(across, 'x'), at: toRight(0, 3.2), size, turn: 0, anchor: 'start' },
    { text: advice(down, 'y'), at: upwards(0, 3.2 + size), size, turn: 90, anchor: 'start' },
    {
      text: footer,
      at: { x: foot.x + across + 4, y: foot.y },
      size,
      turn: 0,
      anchor: 'start',
    },
  ];
  return { lines, texts };
}

function tens(room: number): number {
  return Math.max(step, Math.floor(room / step) * step);
}

function barLines(
  length: number,
  at: (along: number, out: number) => PagePoint,
): readonly PageLine[] {
  const ticks = Array.from({ length: length / step + 1 }, (_, i) => {
    const ends = i === 0 || i * step === length;
    return { from: at(i * step, 0), to: at(i * step, ends ? 2.4 : 1.2), width: stroke };
  });
  return [{ from: at(0, 0), to: at(length, 0), width: stroke }, ...ticks];
}
