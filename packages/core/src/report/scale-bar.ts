import { html, type Html } from './html.js';
import { inDigits } from '../units/in-digits.js';

const blocks = 5;
const rowHeight = 7;
const barHeight = 1.6;
// Room for what the last number needs past the end of its bar, and for the words after it.
const wordsRoom = 34;

// 1, 2 or 5 times a power of ten, and no longer than it may be.
function roundLength(most: number): number {
  const power = 10 ** Math.floor(Math.log10(most));
  return [5, 2, 1].map((times) => times * power).find((length) => length <= most) ?? power;
}

function drawRow(
  y: number,
  length: number,
  marks: { readonly end: string; readonly unit: string },
): Html {
  const step = length / blocks;
  const filled = [0, 2, 4].map(
    (i) =>
      html`<rect
        x="${i * step}"
        y="${y}"
        width="${step}"
        height="${barHeight}"
        fill="currentColor"
      />`,
  );
  const outline = html`<rect
    x="0"
    y="${y}"
    width="${length}"
    height="${barHeight}"
    fill="none"
    stroke="currentColor"
    stroke-width=".2"
  />`;
  const word = y + barHeight + 3.4;
  return html`${filled}${outline}<text x="0" y="${word}">0</text
    ><text x="${length}" y="${word}">${marks.end}</text
    ><text class="unit" x="${length + 3}" y="${y + barHeight}">${marks.unit}</text>`;
}

/**
 * Draw a bar that tells how long things are on paper, and how long they are of the real thing.
 *
 * @param width - What there is room for, mm of paper.
 * @param ratio - Real over model.
 * @returns A picture of true size.
 */
export function scaleBar(width: number, ratio: number): Html {
  const most = Math.min(100, Math.max(5, width));
  const paper = roundLength(most);
  const real = roundLength((most * ratio) / 1000);
  const [wide, high] = [most + wordsRoom, 2 * rowHeight];
  const said = `Scale bar: ${inDigits(paper, 6)} mm on paper, and ${inDigits(real, 6)} m of the real thing.`;
  return html`<svg
    class="bar"
    role="img"
    aria-label="${said}"
    viewBox="-2 -1 ${wide} ${high}"
    style="--w:${wide}mm;--h:${high}mm"
  >
    ${drawRow(0, paper, { end: inDigits(paper, 6), unit: 'mm on paper' })}${drawRow(rowHeight, (real * 1000) / ratio, { end: inDigits(real, 6), unit: 'm of the real thing' })}
  </svg>`;
}
