import type { Page, PageLine, PageText, PlacedPicture } from '../page/page.js';
import type { Size } from '../units/parse-size.js';
import { html, type Html } from './html.js';

/** A part as a page shows it. */
export interface ShownPart {
  /** The id of its picture in the document, or null where there is none. */
  readonly id: string | null;
  /** Its name. */
  readonly name: string;
}

const figures = 1000;

function mm(value: number): number {
  return Math.round(value * figures) / figures;
}

/**
 * Draw a page of parts.
 *
 * @param page - What lies where.
 * @param paper - Its size, mm.
 * @param parts - What is to be seen of each part.
 * @param said - What somebody is told who does not see it.
 * @returns A picture, as wide as what it stands in.
 */
export function drawPage(
  page: Page,
  paper: Size<number>,
  parts: readonly ShownPart[],
  said: string,
): Html {
  const { pictures, lines, texts } = page;
  return html`<svg
    class="page"
    role="img"
    aria-label="${said}"
    viewBox="0 0 ${mm(paper.width)} ${mm(paper.height)}"
  >
    ${pictures.map((placed) => drawPicture(placed, parts[placed.part]))}
    <g stroke="#000">${lines.map(drawLine)}</g>
    ${texts.map(drawText)}
  </svg>`;
}

function drawPicture(
  { box, piece, turned, mirrored, blank }: PlacedPicture,
  part: ShownPart | undefined,
): Html {
  const [wide, high] = turned ? [box.height, box.width] : [box.width, box.height];
  // Its left edge on top: a quarter turn with the clock about the corner that comes to lie top right.
  const moved = turned
    ? `translate(${mm(box.x + box.width)} ${mm(box.y)}) rotate(90)`
    : `translate(${mm(box.x)} ${mm(box.y)})`;
  const flipped = mirrored ? `${moved} translate(${mm(wide)} 0) scale(-1 1)` : moved;
  if (part?.id == null)
    return html`<g transform="${moved}"
      ><rect
        width="${mm(wide)}"
        height="${mm(high)}"
        fill="#e8e8e8"
        stroke="#777"
        stroke-width=".2"
    /></g>`;
  const window = `${mm(piece.x)} ${mm(piece.y)} ${mm(piece.width)} ${mm(piece.height)}`;
  const pale = blank ? html` opacity=".2"` : null;
  return html`<g transform="${flipped}" ${pale}
    ><svg width="${mm(wide)}" height="${mm(high)}" viewBox="${window}" preserveAspectRatio="none">
      <use href="#${part.id}" /></svg
  ></g>`;
}

function drawLine({ from, to, width }: PageLine): Html {
  return html`<path
    d="M${mm(from.x)} ${mm(from.y)}L${mm(to.x)} ${mm(to.y)}"
    stroke-width="${mm(width)}"
  />`;
}

// Capitals are some seven tenths of a font's size.
function drawText({ text, at, size, turn, anchor }: PageText): Html {
  const place = `translate(${mm(at.x)} ${mm(at.y)}) rotate(${mm(-turn)})`;
  return html`<text transform="${place}" font-size="${mm(size / 0.72)}" text-anchor="${anchor}"
    >${text}</text
  >`;
}
