import { extname } from 'node:path';
import { encodeSrgb } from '../colour/srgb.js';
import { showPath } from '../errors/show-path.js';
import { TextureError } from '../errors/texture-error.js';
import type { Warning } from '../errors/warning.js';
import { cutRows } from '../fill/cut-rows.js';
import { type Fill, fillRows } from '../fill/fill-rows.js';
import { isLaid } from '../fill/lay-copies.js';
import { boxOfLoops } from '../fill/outline/part-outline.js';
import { meanLight } from '../raster/mean-light.js';
import type { Raster } from '../raster/raster.js';
import { toRows } from '../raster/row-source.js';
import type { PerAxis } from '../surface/measurement.js';
import { mmPerInch } from '../units/units.js';
import type { PartPattern, PartPicture } from '../write/part/part-picture.js';
import { writePartDrawing } from '../write/write-part-drawing.js';
import { writePartPage } from '../write/write-part-page.js';
import { writePicture } from '../write/write-picture.js';
import type { FillPhotoOptions, PartToCover } from './fill-options.js';
import { toFigures } from './to-figures.js';

/** What was written of a part. */
export interface WrittenPart {
  /** What of the report follows from it. */
  readonly size: {
    /** Columns of dots. */
    readonly widthPx: number;
    /** Rows of dots. */
    readonly heightPx: number;
    /** What the file measures on paper from left to right. */
    readonly widthMm: number;
    /** What the file measures on paper from top to bottom. */
    readonly heightMm: number;
  };
  /** What the user should know. */
  readonly warnings: readonly Warning[];
}

/** A tile, and which of its pixels lies on the datum. */
export interface RegisteredTile {
  /** What repeats, at print resolution. */
  readonly raster: Raster;
  /** That pixel. */
  readonly origin: PerAxis<number>;
}

/**
 * Cover a part with a tile and write it as whatever its file is to be.
 *
 * @param tile - What repeats.
 * @param cover - The part.
 * @param options - Where to write, and how.
 * @param inputs - Files that must not be written over.
 * @returns How large it came out.
 * @throws TextureError when the place does not allow it.
 */
export async function writeFilled(
  tile: RegisteredTile,
  cover: PartToCover,
  options: FillPhotoOptions,
  inputs: readonly string[],
): Promise<WrittenPart> {
  try {
    return await writeAs(tile, cover, { ...options, inputs });
  } catch (cause) {
    throw named(cause, cover);
  }
}

async function writeAs(
  tile: RegisteredTile,
  cover: PartToCover,
  options: FillPhotoOptions & { readonly inputs: readonly string[] },
): Promise<WrittenPart> {
  const { output, quality, svg = 'baked', inputs } = options;
  const extension = extname(output).toLowerCase();
  const isSized = extension === '.svg' || extension === '.pdf';
  const fill = fillPart(tile, cover, isSized);
  const { width: widthPx, height: heightPx } = fill.rows;
  if (!isSized) {
    await writePicture(output, fill.rows, { inputs, quality });
    return { size: { widthPx, heightPx, ...inFigures(fill.sizeMm) }, warnings: [] };
  }
  const part = toPartPicture(fill, cover);
  const size = { widthPx, heightPx, ...inFigures(part.page) };
  if (extension === '.pdf') {
    await writePartPage(output, part, inputs);
    return { size, warnings: [] };
  }
  const pattern = svg === 'pattern' ? toPattern(part, fill, { tile: tile.raster, cover }) : null;
  return { size, warnings: await writePartDrawing(output, { part, pattern, inputs }) };
}

// Rows of an outline are made as they are written, and who makes them knows no file. Without bleed it
// was found out when it was read.
function named(cause: unknown, { outline }: PartToCover): unknown {
  const isOutline = cause instanceof TextureError && cause.code === 'bad-drawing';
  if (outline === null || !isOutline) return cause;
  const message = `${showPath(outline.report.path)}: ${cause.message}`;
  const hint =
    'draw it with fewer points, or ask for less --bleed, which takes several for each of them';
  return new TextureError('bad-drawing', message, { cause, hint });
}

function fillPart(
  { raster, origin }: RegisteredTile,
  { part, outline }: PartToCover,
  begun: boolean,
): Fill {
  if (outline === null) return fillRows(raster, { ...part, origin, begun });
  return cutRows(raster, { ...part, origin, outline: outline.shape });
}

function inFigures({ width, height }: { readonly width: number; readonly height: number }): {
  readonly widthMm: number;
  readonly heightMm: number;
} {
  return { widthMm: toFigures(width, 6), heightMm: toFigures(height, 6) };
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
  { tileAt }: Fill,
  { tile, cover }: { readonly tile: Raster; readonly cover: PartToCover },
): PartPattern {
  const { width, height } = page;
  const back = (value: number, period: number): number =>
    (value - Math.floor(value / period) * period) * dot;
  const { outline, part } = cover;
  return {
    tile: toRows(tile, part.dpi),
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
