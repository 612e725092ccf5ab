import { extname } from 'node:path';
import type { Warning } from '../errors/warning.js';
import { drawRelief } from '../finish/relief/draw-relief.js';
import type { DrawnRelief } from '../finish/relief/drawn-relief.js';
import type { PerAxis } from '../surface/measurement.js';
import { mmPerInch } from '../units/units.js';
import type { PartPicture } from '../write/part/part-picture.js';
import { writePartPage } from '../write/write-part-page.js';
import { writePicture } from '../write/write-picture.js';
import { writeReliefDrawing } from '../write/write-relief-drawing.js';
import { type LaidRelief, layRelief, type ReliefGround } from './lay-relief.js';
import type { ReliefSheet } from './plan-relief.js';
import { toFigures } from './to-figures.js';

/** Where pieces are written, and how. */
export interface WriteReliefOptions {
  /** The pieces. */
  readonly sheet: ReliefSheet;
  /** The file. */
  readonly output: string;
  /** Of a JPEG. */
  readonly quality: number | undefined;
  /** Files that must not be written over. */
  readonly inputs: readonly string[];
}

/** How large pieces came out. */
export interface WrittenRelief {
  /** Of all of them together. */
  readonly size: {
    /** Columns. */
    readonly widthPx: number;
    /** Rows. */
    readonly heightPx: number;
    /** On paper, from left to right. */
    readonly widthMm: number;
    /** On paper, from top to bottom. */
    readonly heightMm: number;
  };
  /** What the user should know. */
  readonly warnings: readonly Warning[];
}

/**
 * Write pieces in relief as whatever their file is to be.
 *
 * @param ground - What lies under relief.
 * @param drawn - One piece.
 * @param options - Where to write, and how.
 * @returns How large they came out.
 * @throws TextureError when the place does not allow it.
 */
export async function writeRelief(
  ground: ReliefGround,
  drawn: DrawnRelief,
  options: WriteReliefOptions,
): Promise<WrittenRelief> {
  const { sheet, output, quality, inputs } = options;
  const { outline } = drawn;
  const extension = extname(output).toLowerCase();
  const begun = extension === '.svg' || extension === '.pdf';
  const laid = layRelief(ground, drawn, { ...sheet, begun });
  const { width: widthPx, height: heightPx } = laid.rows;
  const dot = mmPerInch / sheet.dpi;
  if (!begun) {
    await writePicture(output, laid.rows, { inputs, quality });
    const [widthMm, heightMm] = [toFigures(widthPx * dot, 6), toFigures(heightPx * dot, 6)];
    return { size: { widthPx, heightPx, widthMm, heightMm }, warnings: [] };
  }
  const part = toPart(laid, drawn.size, outline?.isBled === true ? { ...sheet, bleed: 0 } : sheet);
  const [widthMm, heightMm] = [toFigures(part.page.width, 6), toFigures(part.page.height, 6)];
  const size = { widthPx, heightPx, widthMm, heightMm };
  if (extension === '.pdf') {
    await writePartPage(output, part, inputs);
    return { size, warnings: [] };
  }
  const { copies } = sheet;
  const { bleed } = part;
  const origins = Array.from({ length: copies }, (_, i) => ({
    x: bleed,
    y: bleed + i * laid.pitch * dot,
  }));
  // Past what bounds a piece that is cut to shape nothing lies under them.
  const { marks } = outline !== null ? drawRelief({ ...sheet.plan, margin: sheet.bleed }) : drawn;
  const depth = drawn.size.y;
  const drawing = { part, flat: laid.flat, marks, origins, depth, inputs };
  return { size, warnings: await writeReliefDrawing(output, drawing) };
}

// The last piece ends the page, whatever its dots.
function toPart(
  { rows, inset, pitch }: LaidRelief,
  piece: PerAxis<number>,
  { dpi, bleed, copies }: ReliefSheet,
): PartPicture {
  const dot = mmPerInch / dpi;
  const at = bleed - inset * dot;
  return {
    rows,
    wall: rows,
    bleed,
    dot,
    page: {
      width: piece.x + 2 * bleed,
      height: (copies - 1) * pitch * dot + piece.y + 2 * bleed,
    },
    at: { x: at, y: at },
  };
}
