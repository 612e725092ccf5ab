import type { Page } from '../../page/page.js';
import { type Dpi, mmPerInch } from '../../units/units.js';
import type { WrittenRows } from '../written-rows.js';
import { drawLine, type PageBytes } from './draw-line.js';
import { layDrawing, type PageLayer } from './lay-drawing.js';
import { layPicture } from './lay-picture.js';
import type { OpenedPictures } from './opened-pictures.js';
import type { PageDrawing, PagePicture, PageSheet } from './page-picture.js';

// Rows that are drawn at a time.
const band = 768;

/**
 * Draw a page as a picture, some rows at a time. Parts made for its resolution are copied dot by dot, laid on
 * the nearest whole one; others are resampled, and drawings are drawn.
 *
 * @param page - Without texts, which a picture has no letters for.
 * @param pictures - The parts that it shows.
 * @param sheet - What it is drawn on, how fine, and what pictures of drawings are open already.
 * @returns The page, drawn as its rows are asked for.
 */
export function renderPage(
  page: Page,
  pictures: readonly (PagePicture | PageDrawing)[],
  sheet: PageSheet & { readonly dpi: Dpi; readonly opened: OpenedPictures },
): WrittenRows {
  const { paper, printer, dpi, opened } = sheet;
  const perMm = { x: dpi / mmPerInch / printer.x, y: dpi / mmPerInch / printer.y };
  const width = Math.round((paper.width * dpi) / mmPerInch);
  const height = Math.round((paper.height * dpi) / mmPerInch);
  const layers = page.pictures.map((placed): PageLayer => {
    const part = pictures[placed.part]!;
    return 'marks' in part
      ? layDrawing(placed, part, { perMm, opened, page: { width, height } })
      : layPicture(placed, part, perMm);
  });
  async function* rows(): AsyncGenerator<Uint8Array> {
    for (let top = 0; top < height; top += band) {
      const length = Math.min(band, height - top);
      const bytes = new Uint8Array(3 * width * length).fill(255);
      const drawn: PageBytes = { width, height: length, bytes };
      for (const layer of layers) await layer(drawn, top);
      for (const { from, to, width: stroke } of page.lines) {
        drawLine(drawn, {
          from: { x: from.x * perMm.x, y: from.y * perMm.y - top },
          to: { x: to.x * perMm.x, y: to.y * perMm.y - top },
          // No line is thinner than a dot, or it would print grey.
          half: Math.max(1, (stroke * (perMm.x + perMm.y)) / 2) / 2,
        });
      }
      for (let at = 0; at < bytes.length; at += 3 * width) yield bytes.subarray(at, at + 3 * width);
    }
  }
  return { width, height, dpi, rows };
}
