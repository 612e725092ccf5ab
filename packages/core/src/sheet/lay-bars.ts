import type { Size } from '../units/parse-size.js';
import type { PageLine, PagePoint, PageText } from '../page/page.js';

/** The bars that a print is checked by. */
export interface CheckBars {
  /** The bars and their ticks. */
  readonly lines: readonly PageLine[];
  /** What they should measure, and what to do where they do not. */
  readonly texts: readonly PageText[];
  /** Whether what else the page says is among them: no where there is no room for it. */
  readonly isFooterLaid: boolean;
}

/** Width of the strips along the left and the foot of a page that the bars stand in, mm. */
export const barStrip = 6.5;

const longest = 100;
const step = 10;
const stroke = 0.15;
// From a bar out to the top of its ticks, and to what is said of it.
const words = 3.2;
const [letter, leastLetter] = [1.6, 0.9];
// From line to line, in heights of a capital, and the mean advance of a letter of the labels' typeface.
const [leading, advance] = [1.35, 0.8];

/**
 * Lay a bar of 100 mm, or of as many tens as fit, along the foot of a page and one along its left.
 *
 * @param page - Its size in mm.
 * @param margin - What the printer cannot reach, mm.
 * @param footer - What else the page says: right of the one bar or above the other, wherever there is more room.
 * @returns What to draw.
 */
export function layBars(page: Size<number>, margin: number, footer: string): CheckBars {
  const foot = { x: margin + barStrip, y: page.height - margin - 1 };
  const side = { x: margin + 1, y: page.height - margin - barStrip };
  const [wide, high] = [page.width - margin - foot.x, side.y - margin];
  const across = Math.min(longest, tens(wide));
  const down = Math.min(longest, tens(high));
  const toRight = (along: number, out: number): PagePoint => ({
    x: foot.x + along,
    y: foot.y - out,
  });
  const upwards = (along: number, out: number): PagePoint => ({
    x: side.x + out,
    y: side.y - along,
  });
  // The last of several lines is next to the foot, and the first is next to the side.
  const below = (written: Written, along: number, out: number): readonly PageText[] =>
    toTexts(written, 0, (i) =>
      toRight(along, out + leadingOf(written, written.lines.length - 1 - i)),
    );
  const beside = (written: Written, along: number, out: number): readonly PageText[] =>
    toTexts(written, 90, (i) => upwards(along, out + written.size + leadingOf(written, i)));
  const clear = 4;
  const right = fitWords(footer, { length: wide - across - clear, height: words - 0.2 });
  const top = fitWords(footer, { length: high - down - clear, height: words - 0.2 });
  return {
    isFooterLaid: Math.max(right.size, top.size) > 0,
    lines: [...barLines(across, toRight), ...barLines(down, upwards)],
    texts: [
      ...below(advise(across, 'x', wide), 0, words),
      ...beside(advise(down, 'y', high), 0, words),
      ...(right.size >= top.size ? below(right, across + clear, 0) : beside(top, down + clear, 0)),
    ],
  };
}

interface Written {
  readonly lines: readonly string[];
  readonly size: number;
}

function leadingOf({ size }: Written, lines: number): number {
  return leading * size * lines;
}

function toTexts(
  { lines, size }: Written,
  turn: number,
  at: (line: number) => PagePoint,
): readonly PageText[] {
  return lines.map((text, i) => ({ text, at: at(i), size, turn, anchor: 'start' }));
}

function advise(length: number, axis: 'x' | 'y', room: number): Written {
  const whole = `${length} mm: measure it, and where it is not, print again with --printer-${axis} ${length === longest ? 'and what it measures' : 'and per cent of it'}`;
  const written = fitWords(whole, { length: room, height: barStrip - 1 - words });
  return written.size > 0 ? written : { lines: [`${length} mm`], size: leastLetter };
}

// As large as they may be and fit, in several lines where there is room; nothing where they cannot be read.
function fitWords(
  text: string,
  { length, height }: { readonly length: number; readonly height: number },
): Written {
  for (let tenths = 10 * letter; tenths >= 10 * leastLetter; tenths--) {
    const size = tenths / 10;
    const lines = wrapped(text, length / (advance * size));
    const most = 1 + Math.floor((height - size) / (leading * size));
    if (lines !== null && lines.length <= most) return { lines, size };
  }
  return { lines: [], size: 0 };
}

function wrapped(text: string, letters: number): readonly string[] | null {
  const lines: string[] = [];
  for (const word of text.split(' ')) {
    if (word.length > letters) return null;
    const longer = `${lines.at(-1) ?? ''} ${word}`;
    if (lines.length > 0 && longer.length <= letters) lines[lines.length - 1] = longer;
    else lines.push(word);
  }
  return lines;
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
