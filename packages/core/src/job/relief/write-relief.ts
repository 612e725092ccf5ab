import { extname, join, parse } from 'node:path';
import type { Warning } from '../../errors/warning.js';
import { drawRelief } from '../../finish/relief/draw-relief.js';
import type { DrawnRelief } from '../../finish/relief/drawn-relief.js';
import { type GroundMean, onGround } from '../../finish/relief/on-ground.js';
import { notePrinted } from '../../raster/printed-note.js';
import type { PerAxis } from '../../surface/measurement.js';
import { mmPerInch } from '../../units/units.js';
import type { PartPicture } from '../../write/part/part-picture.js';
import { writeTogether } from '../../write/write-atomically.js';
import { writeCutPart } from '../../write/write-cut-part.js';
import { writePartPage } from '../../write/write-part-page.js';
import { writePicture } from '../../write/write-picture.js';
import { writeReliefDrawing } from '../../write/write-relief-drawing.js';
import { type LaidRelief, layRelief, type ReliefGround } from './lay-relief.js';
import type { ReliefSheet } from './plan-relief.js';
import { toFigures } from '../to-figures.js';

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
  /** Whether its colours are changed for a printer. */
  readonly isPrinted: boolean;
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
  /** Files of its layers, from the back to the front. */
  readonly layers: readonly string[];
  /** What the user should know. */
  readonly warnings: readonly Warning[];
}

/**
 * Write pieces in relief as whatever their file is to be, with their layers of card: all files whole or none.
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
  const { sheet, output, quality, inputs, isPrinted } = options;
  const { outline } = drawn;
  const extension = extname(output).toLowerCase();
  const begun = extension === '.svg' || extension === '.pdf';
  const bare = layRelief(ground, drawn, { ...sheet, begun });
  const laid = {
    ...bare,
    rows: notePrinted(bare.rows, isPrinted),
    layers: bare.layers.map((rows) => notePrinted(rows, isPrinted)),
  };
  const { width: widthPx, height: heightPx } = laid.rows;
  const dot = mmPerInch / sheet.dpi;
  const layers = layerFiles(output, drawn.cards);
  const dots = { widthPx, heightPx };
  if (!begun) {
    await writeTogether(async () => {
      for (const [i, rows] of [laid.rows, ...laid.layers].entries())
        await writePicture([output, ...layers][i] ?? '', rows, { inputs, quality });
    });
    const [widthMm, heightMm] = [toFigures(widthPx * dot, 6), toFigures(heightPx * dot, 6)];
    return { size: { ...dots, widthMm, heightMm }, layers, warnings: [] };
  }
  const part = toPart(laid, drawn.size, outline?.isBled === true ? { ...sheet, bleed: 0 } : sheet);
  const [widthMm, heightMm] = [toFigures(part.page.width, 6), toFigures(part.page.height, 6)];
  const paged = { part, laid, drawn, mean: ground.mean, files: [output, ...layers] };
  const write = extension === '.pdf' ? writePages : writeDrawings;
  const warnings = await writeTogether(() => write(paged, options));
  return { size: { ...dots, widthMm, heightMm }, layers, warnings };
}

interface PagedRelief {
  readonly part: PartPicture;
  readonly laid: LaidRelief;
  readonly drawn: DrawnRelief;
  readonly mean: GroundMean;
  // That of the whole before those of its layers.
  readonly files: readonly string[];
}

async function writePages(
  { part, laid, files }: PagedRelief,
  { inputs }: WriteReliefOptions,
): Promise<readonly Warning[]> {
  for (const [i, rows] of [laid.rows, ...laid.layers].entries())
    await writePartPage(files[i] ?? '', { ...part, rows }, inputs);
  return [];
}

async function writeDrawings(
  { part, laid, drawn, mean, files }: PagedRelief,
  { sheet, inputs }: WriteReliefOptions,
): Promise<readonly Warning[]> {
  const { bleed, dot } = part;
  const [output = '', ...layers] = files;
  const origins = Array.from({ length: sheet.copies }, (_, i) => ({
    x: bleed,
    y: bleed + i * laid.pitch * dot,
  }));
  // Past what bounds a piece that is cut to shape nothing lies under its marks.
  const isCut = drawn.outline !== null;
  const { marks: all } = isCut ? drawRelief({ ...sheet.plan, margin: sheet.bleed }) : drawn;
  const marks = onGround(all, mean);
  const whole = { part, flat: laid.flat, marks, origins, depth: drawn.size.y, inputs };
  const warnings = [...(await writeReliefDrawing(output, whole))];
  // Print goes on past what is cut: the line is of the piece alone, and lies where the piece does.
  const { cards, at } = drawRelief({ ...sheet.plan, bleed: 0, margin: 0 });
  const off = { x: at.x - drawn.at.x, y: at.y - drawn.at.y };
  for (const [i, { area }] of cards.entries()) {
    const rows = laid.layers[i] ?? laid.rows;
    const loops = origins.flatMap(({ x, y }) => moved(area.loops, { x: x + off.x, y: y + off.y }));
    const cut = { part: { ...part, rows }, loops };
    warnings.push(...(await writeCutPart(layers[i] ?? '', cut, inputs)));
  }
  return warnings;
}

/**
 * Name the files of layers after that of the whole.
 *
 * @param output - That file, which is the first layer.
 * @param cards - Layers upon it.
 * @returns A file each: `girder-2-flanges.png`.
 */
export function layerFiles(
  output: string,
  cards: readonly { readonly name: string }[],
): readonly string[] {
  const { dir, name, ext } = parse(output);
  return cards.map((card, i) =>
    join(dir, `${name}-${i + 2}-${card.name.replace(/ /g, '-')}${ext}`),
  );
}

function moved(loops: readonly Float64Array[], { x, y }: PerAxis<number>): readonly Float64Array[] {
  return loops.map((loop) => loop.map((mm, i) => mm + (i % 2 === 0 ? x : y)));
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
