import { showPath } from '../../errors/show-path.js';
import { TextureError } from '../../errors/texture-error.js';
import { isLaid, layCopies } from '../../fill/lay-copies.js';
import { changeColours, type ColourTable } from '../../finish/print/colour-table.js';
import { changeRaster } from '../../finish/print/print-raster.js';
import { toPrintTable } from '../../finish/print/print-tone.js';
import { NewerPrinter, parsePrinter } from '../../finish/print/parse-printer.js';
import type { PrinterProfile } from '../../finish/print/printer-profile.js';
import { sharpenTile } from '../../finish/print/sharpen-tile.js';
import { printFinish } from '../../finish/print/print-finish.js';
import type { Raster } from '../../raster/raster.js';
import type { MakeFinish } from '../../raster/row-finish.js';
import { readPrinterText } from '../../read/read-printer-text.js';
import { refusePrintedFiles } from '../../read/refuse-printed.js';
import { BadField } from '../../surface/fields.js';
import { type Dpi, mmPerInch, px } from '../../units/units.js';
import type { PrintingOptions } from './printing-options.js';

/** What was done to colours so that they print well. */
export interface PrintingReport {
  /** The printer's profile, or null. */
  readonly printer: string | null;
  /** As told; 0 where a profile holds it. */
  readonly dotGain: number;
  /** The most ink, 3 where none was told. */
  readonly inkLimit: number;
  /** How colourful. */
  readonly saturation: number;
  /** How much it was sharpened. */
  readonly sharpen: number;
}

/** What is to be done to colours, ready to be done. */
export interface Printing {
  /** What becomes of colours, or null where nothing does. */
  readonly table: ColourTable | null;
  /** As told. */
  readonly report: PrintingReport;
}

// An eye resolves a minute of arc: 0.12 mm from 400 mm away, at which a model is looked at in the hand.
const radius = 0.12;
const leastRadius = 0.5;

/**
 * Read what is told of printing.
 *
 * @param options - Checked, or nothing.
 * @param photos - Pictures whose colours are to be changed.
 * @returns What is to be done, or null where nothing was told.
 * @throws TextureError when a profile does not allow it, or a picture's colours were made for a printer already.
 */
export async function openPrinting(
  options: PrintingOptions | undefined,
  photos: readonly string[],
): Promise<Printing | null> {
  if (options === undefined) return null;
  const { printer = null, dotGain = 0, inkLimit = 3, saturation = 1, sharpen = 0 } = options;
  const profile = printer === null ? null : await readPrinter(printer);
  const table = toPrintTable({
    saturation,
    dotGain,
    inkLimit,
    ...(profile && { printer: profile.table }),
  });
  if (table !== null) await refusePrintedFiles(photos);
  return { table, report: { printer, dotGain, inkLimit, saturation, sharpen } };
}

/**
 * Tell whether colours are changed, so that it is not to be done again.
 *
 * @param printing - What is done, or null for nothing.
 * @returns Yes where they are.
 */
export function isChanging(printing: Printing | null): boolean {
  return printing !== null && printing.table !== null;
}

async function readPrinter(path: string): Promise<PrinterProfile> {
  const hint =
    'gaugerod sheet --strip-photo PHOTO -o PRINTER.json reads a test strip and writes one';
  try {
    return parsePrinter(await readPrinterText(path));
  } catch (cause) {
    const shown = showPath(path);
    if (cause instanceof NewerPrinter) {
      const message = `${shown}: ${cause.message}`;
      throw new TextureError('newer-printer', message, { hint: 'use a newer gaugerod', cause });
    }
    if (!(cause instanceof BadField)) throw cause;
    const message = `${shown} is no printer's profile: ${showPath(cause.message)}`;
    throw new TextureError('bad-printer', message, { hint, cause });
  }
}

/**
 * Report what was done.
 *
 * @param printing - What was, or null for nothing.
 * @returns As it was told, or null.
 */
export function reportPrinting(printing: Printing | null): PrintingReport | null {
  return printing?.report ?? null;
}

/** What repeats, and what is done to its rows. */
export interface TileToPrint {
  /** At print resolution. */
  readonly tile: Raster;
  /** Whether rows are made of something else than its copies, or something is laid on them. */
  readonly isCovered: boolean;
}

/**
 * Change the colours of what covers a part: of the tile, so that it goes on repeating, or of rows, once all else is
 * laid on them.
 *
 * @param covering - What covers it.
 * @param printing - What to do, or null for nothing.
 * @returns The tile, and what is still to be done to rows.
 */
export function printColours(
  covering: TileToPrint,
  printing: Printing | null,
): { readonly tile: Raster; readonly finishes: readonly MakeFinish[] } {
  const { tile, isCovered } = covering;
  const table = printing?.table ?? null;
  if (table === null) return { tile, finishes: [] };
  if (isCovered) return { tile, finishes: [printFinish(table)] };
  return { tile: onCopy(tile, (copy) => changeRaster(copy, table)), finishes: [] };
}

/**
 * Sharpen what repeats, before anything is laid on it.
 *
 * @param surface - It, at print resolution.
 * @param printing - How much, or null for not at all.
 * @param dpi - Of the printer.
 * @returns The same surface where it is not to be sharpened.
 */
export function sharpenSurface<Surface extends { readonly made: { readonly raster: Raster } }>(
  surface: Surface,
  printing: Printing | null,
  dpi: Dpi,
): Surface {
  const amount = printing?.report.sharpen ?? 0;
  if (amount === 0) return surface;
  const dots = Math.max(leastRadius, (radius * dpi) / mmPerInch);
  const raster = onCopy(surface.made.raster, (copy) => sharpenTile(copy, { amount, radius: dots }));
  return { ...surface, made: { ...surface.made, raster } };
}

/**
 * Tell what becomes of a single colour.
 *
 * @param printing - What is done, or null for nothing.
 * @returns What changes colours in place, RGBRGB… from 0 to 1 as encoded in sRGB; null where nothing does.
 */
export function changeOf(printing: Printing | null): ((colours: Float32Array) => void) | null {
  const table = printing?.table ?? null;
  if (table === null) return null;
  return (colours) => {
    changeColours(table, colours);
  };
}

function onCopy(tile: Raster, change: (copy: Raster) => Raster): Raster {
  if (!isLaid(tile)) return change(tile);
  const { copy, starts, width, height } = tile;
  const x = { copies: starts.x.length, period: px(width) };
  return layCopies(change(copy), { x, y: { copies: starts.y.length, period: px(height) } });
}
