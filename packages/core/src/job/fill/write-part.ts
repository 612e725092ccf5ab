import { encodeSrgb } from '../../colour/srgb.js';
import type { Warning } from '../../errors/warning.js';
import type { Fill } from '../../fill/fill-rows.js';
import { isLaid } from '../../fill/lay-copies.js';
import { boxOfLoops } from '../../fill/outline/part-outline.js';
import { meanLight } from '../../raster/mean-light.js';
import type { Raster } from '../../raster/raster.js';
import { toRows } from '../../raster/row-source.js';
import type { Size } from '../../units/parse-size.js';
import { mmPerInch } from '../../units/units.js';
import type { PartPattern, PartPicture } from '../../write/part/part-picture.js';
import { writePartDrawing } from '../../write/write-part-drawing.js';
import { writePartPage } from '../../write/write-part-page.js';
import type { FillPhotoOptions, PartToCover } from './fill-options.js';

/** A part, and what covers it. */
export interface CoveredPart {
  /** What repeats, at print resolution. */
  readonly tile: Raster;
  /** The part. */
  readonly cover: PartToCover;
  /** What shows of one on the other. */
  readonly fill: Fill;
}

/**
 * Write a part as a drawing or a page of exactly its size.
 *
 * @param covered - The part, and what covers it.
 * @param options - Where to write, and how.
 * @param inputs - Files that must not be written over.
 * @returns What it measures in millimetres, and what the user should know.
 * @throws TextureError when the place does not allow it.
 */
export async function writePart(
  covered: CoveredPart,
  options: Pick<FillPhotoOptions, 'output' | 'svg'>,
  inputs: readonly string[],
): Promise<{ readonly page: Size<number>; readonly warnings: readonly Warning[] }> {
  const { tile, cover, fill } = covered;
  const { output, svg = 'baked' } = options;
  const part = toPartPicture(fill, cover);
  const { page } = part;
  if (output.toLowerCase().endsWith('.pdf')) {
    await writePartPage(output, part, inputs);
    return { page, warnings: [] };
  }
  const pattern = svg === 'pattern' ? toPattern(part, fill, { tile, cover }) : null;
  return { page, warnings: await writePartDrawing(output, { part, pattern, inputs }) };
}

function toPartPicture({ rows, wall, inset }: Fill, { part }: PartToCover): PartPicture {
  const { width, height, dpi, bleed: margin } = part;
  const bleed = margin ?? 0;
  const dot = mmPerInch / dpi;
  return {
    rows,
    wall,
    bleed,
    dot,
    page: { width: width + 2 * bleed, height: height + 2 * bleed },
    at: { x: bleed - inset.x * dot, y: bleed - inset.y * dot },
  };
}

function toPattern(
  { at, dot, page }: PartPicture,
  { tileAt, rows: { note } }: Fill,
  { tile, cover }: { readonly tile: Raster; readonly cover: PartToCover },
): PartPattern {
  const { width, height } = page;
  const back = (value: number, period: number): number =>
    (value - Math.floor(value / period) * period) * dot;
  const { outline, part } = cover;
  return {
    tile: { ...toRows(tile, part.dpi), ...(note !== undefined && { note }) },
    at: { x: at.x - back(tileAt.x, tile.width), y: at.y - back(tileAt.y, tile.height) },
    colour: colourOf(tile),
    ...(outline === null
      ? { loops: [Float64Array.of(0, 0, width, 0, width, height, 0, height)], rule: 'nonzero' }
      : { loops: onPage(outline.shape.loops), rule: outline.shape.rule }),
  };
}

function onPage(loops: readonly Float64Array[]): readonly Float64Array[] {
  const { x0, y0 } = boxOfLoops(loops);
  return loops.map((loop) => loop.map((mm, i) => mm - (i % 2 === 0 ? x0 : y0)));
}

function colourOf(tile: Raster): string {
  const bytes = meanLight(isLaid(tile) ? tile.copy : tile).map(encodeSrgb);
  return `#${bytes.map((byte) => byte.toString(16).padStart(2, '0')).join('')}`;
}
