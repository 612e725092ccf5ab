import { type Box, type Page, paleGrey, type PlacedPicture } from '../../page/page.js';
import type { PerAxis } from '../../surface/measurement.js';
import type { Size } from '../../units/parse-size.js';
import { type Dpi, mmPerInch } from '../../units/units.js';
import { loadSharp } from '../load-sharp.js';
import type { WrittenRows } from '../written-rows.js';
import { drawLine, type PageBytes } from './draw-line.js';
import type { OpenedPictures } from './dot-picture.js';
import { layDrawing, type PageLayer } from './lay-drawing.js';
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
      : layPicture(placed, part, dotsOf(placed.box, perMm));
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

// On the nearest whole ones.
function dotsOf({ x, y, width, height }: Box, perMm: PerAxis<number>): Box {
  return {
    x: Math.round(x * perMm.x),
    y: Math.round(y * perMm.y),
    width: Math.max(1, Math.round(width * perMm.x)),
    height: Math.max(1, Math.round(height * perMm.y)),
  };
}

// Its dots are held from the first of them to the last.
function layPicture(placed: PlacedPicture, picture: PagePicture, dots: Box): PageLayer {
  const shown = placed.blank ? picture.shape : picture.bytes;
  const stride = 3 * dots.width;
  let held: Uint8Array | null = null;
  return async (page, top) => {
    const from = Math.max(top, dots.y);
    const to = Math.min(top + page.height, dots.y + dots.height);
    if (from >= to) return;
    if (shown !== null) held ??= await takePiece(shown, placed, picture, dots);
    for (let y = from; y < to; y++) {
      const at = 3 * ((y - top) * page.width + dots.x);
      const begin = stride * (y - dots.y);
      if (held === null) page.bytes.fill(paleGrey, at, at + stride);
      else page.bytes.set(held.subarray(begin, begin + stride), at);
    }
    if (to === dots.y + dots.height) held = null;
  };
}

// The piece as it lies on the page, RGBRGB…
async function takePiece(
  shown: Uint8Array,
  { piece, turned, mirrored }: PlacedPicture,
  picture: PagePicture,
  dots: Size<number>,
): Promise<Uint8Array> {
  const sharp = await loadSharp();
  const cut = sharp(shown, { limitInputPixels: false }).extract(windowOf(piece, picture));
  const { width, height } = turned ? { width: dots.height, height: dots.width } : dots;
  // In linear light, or mortar goes dark; a piece that is as fine as the page stays as it is.
  const { info, data } = await cut
    .pipelineColourspace('scrgb')
    .resize({ width, height, fit: 'fill' })
    .flatten({ background: '#ffffff' })
    .toColourspace('srgb')
    .raw()
    .toBuffer({ resolveWithObject: true });
  if (!turned && !mirrored) return data;
  const raw = { width: info.width, height: info.height, channels: 3 as const };
  const laid = sharp(data, { raw, limitInputPixels: false }).flop(mirrored);
  return (turned ? laid.rotate(90) : laid).raw().toBuffer();
}

function windowOf(
  piece: Box,
  { pixels, size, at }: PagePicture,
): { left: number; top: number; width: number; height: number } {
  const perMm = { x: pixels.width / size.width, y: pixels.height / size.height };
  const width = Math.min(pixels.width, Math.max(1, Math.round(piece.width * perMm.x)));
  const height = Math.min(pixels.height, Math.max(1, Math.round(piece.height * perMm.y)));
  const left = Math.min(Math.round((piece.x - at.x) * perMm.x), pixels.width - width);
  const top = Math.min(Math.round((piece.y - at.y) * perMm.y), pixels.height - height);
  return { left, top, width, height };
}
