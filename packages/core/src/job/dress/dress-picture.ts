import { base64Length } from '../../drawing/data-uri.js';
import { TextureError } from '../../errors/texture-error.js';
import { showPath } from '../../errors/show-path.js';
import { fillRows } from '../../fill/fill-rows.js';
import type { WallRows } from '../../fill/finish-rows.js';
import { notePrinted } from '../../raster/printed-note.js';
import type { MakeFinish } from '../../raster/row-finish.js';
import type { RowSource } from '../../raster/row-source.js';
import { type Dpi, mmPerInch, printMm } from '../../units/units.js';
import { encodePicture } from '../../write/encode-picture.js';
import type { SurfacePlan } from './dress-plan.js';
import type { PrintTile } from '../surface/make-tile.js';

/** A picture's file. */
export interface DressedPicture {
  /** Columns. */
  readonly width: number;
  /** Rows. */
  readonly height: number;
  /** What it is. */
  readonly format: 'png' | 'jpeg';
  /** The file. */
  readonly bytes: Buffer;
}

/** Where a picture goes. */
export interface DressPictureOptions {
  /** Of the printer. */
  readonly dpi: Dpi;
  /** Beside the drawing, without loss, or into it. */
  readonly mode: 'link' | 'embed';
  /** Where the photo lies, for messages. */
  readonly path: string;
  /** The wall, where weather leaves no copies of the tile alike; else null. */
  readonly wall: WallRows | null;
  /** What is done to its rows before they are rounded, in this order. */
  readonly finishes: readonly MakeFinish[];
  /** Whether its colours were changed for a printer. */
  readonly isPrinted: boolean;
}

// Renderers that read by libxml2 stop at an attribute of 10 MB.
const mostEmbedded = 9.5e6;
const qualities = [95, 92, 88];

/**
 * Make a picture that outlines of a surface are covered with. Beside the drawing it is PNG. In it,
 * JPEG in full colour, a third of that, and less where it would be too large for some renderers.
 *
 * @param tile - What repeats.
 * @param plan - What of it is wanted.
 * @param options - Where it goes.
 * @returns Its file, and how large it is.
 * @throws TextureError `too-large` where it does not go into a drawing.
 */
export async function dressPicture(
  tile: PrintTile,
  plan: SurfacePlan,
  options: DressPictureOptions,
): Promise<DressedPicture> {
  const { dpi, mode, path, wall, finishes, isPrinted } = options;
  const { x, y } = plan.picture;
  const dot = mmPerInch / dpi;
  const filled = fillRows(tile.raster, {
    width: printMm(x.length * dot),
    height: printMm(y.length * dot),
    dpi,
    datum: { x: x.start * dot, y: y.start * dot },
    origin: tile.origin,
    wall,
    finishes,
  });
  const rows = notePrinted(filled.rows, isPrinted);
  const size = { width: rows.width, height: rows.height };
  if (mode === 'link') {
    return { ...size, format: 'png', bytes: await encodePicture(rows, { format: 'png' }) };
  }
  const bytes = await encodeSmall(rows);
  if (bytes !== null) return { ...size, format: 'jpeg', bytes };
  const message = `the picture of ${showPath(path)} would be ${size.width} x ${size.height} px, more than every program reads inside a drawing`;
  throw new TextureError('too-large', message, { hint: '--link DIR writes it beside the drawing' });
}

async function encodeSmall(rows: RowSource): Promise<Buffer | null> {
  for (const quality of qualities) {
    const bytes = await encodePicture(rows, { format: 'jpeg', quality });
    if (base64Length(bytes.length) <= mostEmbedded) return bytes;
  }
  return null;
}
