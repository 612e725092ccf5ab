import { extname } from 'node:path';
import { showPath } from '../../errors/show-path.js';
import { TextureError } from '../../errors/texture-error.js';
import type { Warning } from '../../errors/warning.js';
import { type Fill, fillRows } from '../../fill/fill-rows.js';
import type { WallRows } from '../../fill/finish-rows.js';
import type { Raster } from '../../raster/raster.js';
import { notePrinted } from '../../raster/printed-note.js';
import type { MakeFinish } from '../../raster/row-finish.js';
import type { PerAxis } from '../../surface/measurement.js';
import { writePicture } from '../../write/write-picture.js';
import type { FillPhotoOptions, PartToCover } from './fill-options.js';
import { toFigures } from '../to-figures.js';

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
  /** Makes the rows of the wall that it covers, where its copies are not alike; else null. */
  readonly wall: WallRows | null;
  /** What is done to rows before they are rounded, in this order. */
  readonly finishes: readonly MakeFinish[];
  /** Whether its colours are changed for a printer. */
  readonly isPrinted: boolean;
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
  const { output, quality, inputs } = options;
  const isSized = ['.svg', '.pdf'].includes(extname(output).toLowerCase());
  const bare = await fillPart(tile, cover, isSized);
  const fill = { ...bare, rows: notePrinted(bare.rows, tile.isPrinted) };
  const { width: widthPx, height: heightPx } = fill.rows;
  if (!isSized) {
    await writePicture(output, fill.rows, { inputs, quality });
    return { size: { widthPx, heightPx, ...inFigures(fill.sizeMm) }, warnings: [] };
  }
  const { writePart } = await import('./write-part.js');
  const written = await writePart({ tile: tile.raster, cover, fill }, options, inputs);
  const { page, warnings } = written;
  return { size: { widthPx, heightPx, ...inFigures(page) }, warnings };
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

// What cuts to shape, and what draws, is loaded for those who need it.
async function fillPart(
  { raster, origin, wall, finishes }: RegisteredTile,
  { part, outline }: PartToCover,
  begun: boolean,
): Promise<Fill> {
  const over = { ...part, origin, wall, finishes };
  if (outline === null) return fillRows(raster, { ...over, begun });
  const { cutRows } = await import('../../fill/cut-rows.js');
  return cutRows(raster, { ...over, outline: outline.shape });
}

function inFigures({ width, height }: { readonly width: number; readonly height: number }): {
  readonly widthMm: number;
  readonly heightMm: number;
} {
  return { widthMm: toFigures(width, 6), heightMm: toFigures(height, 6) };
}
