import type { Raster } from '../raster/raster.js';
import type { RowSource } from '../raster/row-source.js';
import type { FinishedPage } from './finish-rows.js';
import { clearPixel, coverPart, cutRow, nextCover, widenRow } from './outline/cut-out.js';
import type { PartOutline } from './outline/part-outline.js';

/** A page of pieces that are cut to shape. */
export interface CutPage extends FinishedPage {
  /** What bounds a piece, in pixels from its top left with its bleed. */
  readonly outline: PartOutline;
  /** Past its outer edge, in pixels; windows get none. */
  readonly bleed: number;
}

/**
 * Cut finished pieces to shape: transparent outside, and between them.
 *
 * @param rows - Of all pieces, RGB.
 * @param tile - What lies on them.
 * @param page - How they lie, and their shape.
 * @returns The same rows, RGBA.
 */
export function cutFinished(rows: RowSource, tile: Raster, page: CutPage): RowSource {
  return { ...rows, channels: 4, rows: () => cutPieces(rows, clearPixel(tile), page) };
}

function* cutPieces(source: RowSource, clear: number, page: CutPage): Generator<Uint8Array> {
  const { width, piece, gap, outline, bleed } = page;
  const pitch = piece + gap;
  const row = new Uint8Array(4 * width);
  const size = { width, height: piece };
  const begin = (): Generator<Float64Array, void> => coverPart(outline, bleed, size);
  let covers = begin();
  let line = 0;
  for (const colours of source.rows()) {
    const y = line++ % pitch;
    if (y === 0) covers = begin();
    if (y >= piece) new Uint32Array(row.buffer).fill(clear);
    else {
      widenRow(colours, row);
      cutRow(row, nextCover(covers), clear);
    }
    yield row;
  }
}
