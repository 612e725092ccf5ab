import { withLimits } from '../../read/held-limits.js';
import { extname } from 'node:path';
import { findPaper, type Paper } from '../../catalogue/find-paper.js';
import { outOfRange } from '../../errors/out-of-range.js';
import type { Outcome } from '../../errors/outcome.js';
import { showPath } from '../../errors/show-path.js';
import { TextureError } from '../../errors/texture-error.js';
import type { Warning } from '../../errors/warning.js';
import {
  type ChangeColours,
  openPrint,
  type PrintPicture,
  readPrint,
} from '../../read/open-print.js';
import type { Page } from '../../page/page.js';
import { planSheets, type SheetPlace } from '../../sheet/plan-sheets.js';
import { checkSheetOptions, type SheetOptions } from '../../sheet/sheet-options.js';
import type { PerAxis } from '../../surface/measurement.js';
import type { Size } from '../../units/parse-size.js';
import { type Dpi, dpi as toDpi, mmPerInch } from '../../units/units.js';
import { checkOutput } from '../../write/check-output.js';
import { pictureFormats } from '../../write/formats/index.js';
import { inOrder } from '../../write/in-order.js';
import { writePages } from '../../write/write-pages.js';
import { beginStep, type JobOptions } from '../job-options.js';
import type { OpenPart } from './open-part.js';
import { warnOfPrintSize } from './warn-of-print-size.js';
import { letterPage } from '../print/letter-page.js';
import {
  changeOf,
  isChanging,
  openPrinting,
  type PrintingReport,
  reportPrinting,
} from '../print/open-printing.js';
import { checkPrinting, printingFiles, type PrintingOptions } from '../print/printing-options.js';
import { labelOf, warnOfLabel } from './label-part.js';
import { toFigures } from '../to-figures.js';

/** What {@link sheetParts} needs to know. */
export interface SheetPartsOptions
  extends Omit<SheetOptions, 'paper' | 'footer' | 'turn'>, JobOptions {
  /** The file to write: `.pdf`, or a picture of each page: `.png`, `.tif`, `.jpg`, `.webp`. */
  readonly output: string;
  /** What is printed on; A4 unless told. */
  readonly paper?: Paper;
  /** Extra picture along the edges of every part, or of each in turn, to be cut away, mm; none unless told. */
  readonly bleed?: number | readonly number[];
  /** Dots per inch of parts that do not say, and of pages that become pictures; 600 for those unless told. */
  readonly dpi?: Dpi;
  /** What the bar of 100 mm along the foot of a printed sheet measures, mm, 90 to 110; 100 unless told. */
  readonly printerX?: number;
  /** What the bar up its side measures, likewise. */
  readonly printerY?: number;
  /** What is done to colours so that they print as on the screen; they go on paper as they are unless told. */
  readonly printing?: Omit<PrintingOptions, 'sharpen'>;
  /** Whether parts may be turned on their sides to save paper; true unless told. */
  readonly turn?: boolean;
}

/** A part on a page, as the print measures. */
export interface SheetedPart {
  /** Its file. */
  readonly name: string;
  /** On which page, from 1. */
  readonly page: number;
  /** From the left edge of the paper to its own, mm. */
  readonly xMm: number;
  /** From the top edge of the paper to its own, mm. */
  readonly yMm: number;
  /** What it measures across the page, mm. */
  readonly widthMm: number;
  /** What it measures down the page, mm. */
  readonly heightMm: number;
  /** Whether it lies on its side. */
  readonly turned: boolean;
  /** Layer of card, from 1, the one that carries the print. */
  readonly layer: number;
  /** Row and column among the part's pieces, from 1, or null where it is whole. */
  readonly piece: { readonly row: number; readonly column: number } | null;
}

/** Pages of parts at true size. */
export interface SheetedParts {
  /** The file asked for. */
  readonly output: string;
  /** The files written: one, or a picture a page. */
  readonly files: readonly string[];
  /** How many pages. */
  readonly pages: number;
  /** What they are printed on. */
  readonly paper: {
    /** `A4`, or null. */
    readonly name: string | null;
    /** Its width. */
    readonly widthMm: number;
    /** Its height. */
    readonly heightMm: number;
  };
  /** What was done to colours so that they print as on the screen, or null where nothing was asked for. */
  readonly printing: PrintingReport | null;
  /** What lies where, part by part. */
  readonly parts: readonly SheetedPart[];
}

/** Why parts make no sheets. */
export type SheetRefusal = 'paper-too-small' | 'too-many-pieces';

const mostParts = 500;
// A page becomes a PDF, or a picture that is held in memory while it is drawn.
const sheetExtensions = ['.pdf', ...pictureFormats.flatMap(({ extensions }) => extensions)];
const mostDots = 150e6;
// Nobody prints so coarsely: encoders write a dot to the millimetre where nobody told them.
const leastDpi = 30;

/**
 * Lay parts on pages at true size, with marks to cut and match them by and bars to check the print.
 *
 * @param paths - Pictures that say their print resolution, or drawings of pictures, flat fills and lines, one or more; one named twice is printed twice.
 * @param options - Where to write, the paper, and what goes around the parts.
 * @returns What lies where, or why the paper does not do.
 * @throws RangeError when an option makes no sense.
 * @throws TextureError when a file does not allow it.
 */
export async function sheetParts(
  paths: readonly string[],
  options: SheetPartsOptions,
): Promise<Outcome<SheetedParts, SheetRefusal>> {
  const laid = await withLimits(options, () => layParts(paths, options));
  return laid.ok ? { ...laid, value: laid.value.report } : laid;
}

/** Pages of parts, and what is drawn on them. */
export interface LaidParts {
  /** As it is told. */
  readonly report: SheetedParts;
  /** The pages. */
  readonly pages: readonly Page[];
}

/** What {@link layParts} needs to know. */
interface LayPartsOptions extends SheetPartsOptions {
  /** A folder in which pictures that drawings link may lie, beside the drawings' own. */
  readonly linkedIn?: string;
}

/**
 * Lay parts on pages, and tell what is drawn on those.
 *
 * @param paths - As for {@link sheetParts}.
 * @param options - As for that, and where linked pictures may lie.
 * @returns What lies where, or why the paper does not do.
 * @throws RangeError when an option makes no sense.
 * @throws TextureError when a file does not allow it.
 */
export async function layParts(
  paths: readonly string[],
  options: LayPartsOptions,
): Promise<Outcome<LaidParts, SheetRefusal>> {
  const { output, paper = findPaper('A4'), printerX = 100, printerY = 100 } = options;
  const bleeds = bleedsOf(paths, options);
  checkOptions(paths, { ...options, paper, printerX, printerY, bleeds });
  const printer = { x: printerX / 100, y: printerY / 100 };
  const inputs = [...paths, ...printingFiles(options.printing)];
  await checkOutput(output, { inputs, extensions: sheetExtensions });
  beginStep('reading', options);
  const printing = await openPrinting(options.printing, []);
  const parts = await openParts(paths, { ...options, change: changeOf(printing) });
  checkBleeds(parts, bleeds);

  beginStep('packing', options);
  const letters = isPdf(options) ? 'type' : 'pen';
  // Laid out in millimetres that come out true: a printer that makes them short has more room.
  const room = { width: paper.width * printer.x, height: paper.height * printer.y };
  const planned = planSheets(
    parts.map(({ path, size }, i) => ({
      name: labelOf(path, size, letters),
      ...size,
      bleed: bleeds[i] ?? 0,
    })),
    { ...options, paper: room, footer: (page, pages) => footerOf(paper, page, pages) },
  );
  if (!planned.ok) return planned;
  const { pages, places } = planned.value;

  beginStep('writing', options);
  const files = await writePages(output, {
    pages: isPdf(options) ? pages : pages.map(letterPage),
    pictures: parts.map(({ shown }) => shown),
    sheet: { paper, printer },
    dpi: pageDpi(options),
    isPrinted: isChanging(printing) || parts.some(({ isPrinted }) => isPrinted),
    inputs: [...inputs, ...parts.flatMap(({ linked }) => linked)],
  });
  return {
    ok: true,
    value: {
      pages,
      report: {
        output,
        files,
        pages: pages.length,
        paper: {
          name: paper.name,
          widthMm: toFigures(paper.width, 6),
          heightMm: toFigures(paper.height, 6),
        },
        printing: reportPrinting(printing),
        parts: places.map((place) => reportPlace(place, paths)),
      },
    },
    warnings: [
      ...[...new Set(parts)].flatMap(({ path, warnings }) => [
        ...warnings,
        ...warnOfLabel(path, letters),
      ]),
      ...warnOfPieces(places, paths),
      ...planned.warnings,
    ],
  };
}

function isPdf({ output }: Pick<SheetPartsOptions, 'output'>): boolean {
  return extname(output).toLowerCase() === '.pdf';
}

function pageDpi({ dpi = toDpi(600) }: SheetPartsOptions): Dpi {
  return dpi;
}

function checkOptions(
  paths: readonly string[],
  options: SheetPartsOptions &
    Required<Pick<SheetPartsOptions, 'paper' | 'printerX' | 'printerY'>> & {
      readonly bleeds: readonly number[];
    },
): void {
  if (!(paths.length >= 1 && paths.length <= mostParts)) {
    throw outOfRange(`1 to ${mostParts} pictures`, 'paths', paths.length);
  }
  const { paper, printerX, printerY } = options;
  for (const [name, value] of Object.entries({ printerX, printerY })) {
    if (!(value >= 90 && value <= 110)) throw outOfRange('90 to 110', name, value);
  }
  checkSheetOptions(options);
  checkPrinting(options.printing);
  checkDots(paper, options);
}

function bleedsOf(paths: readonly string[], { bleed = 0 }: SheetPartsOptions): readonly number[] {
  if (typeof bleed === 'number') return paths.map(() => bleed);
  if (bleed.length === paths.length) return bleed;
  throw outOfRange(`one for each of ${paths.length} parts`, 'bleed', bleed.join());
}

function checkBleeds(parts: readonly OpenPart[], bleeds: readonly number[]): void {
  for (const [i, { path, size }] of parts.entries()) {
    const bleed = bleeds[i] ?? 0;
    if (2 * bleed < Math.min(size.width, size.height)) continue;
    throw outOfRange(`less than half of ${showPath(path)}`, 'bleed', `${bleed} mm`);
  }
}

function checkDots(paper: Paper, options: SheetPartsOptions): void {
  const dpi = pageDpi(options);
  const longest = 5000;
  if (!(Math.max(paper.width, paper.height) <= longest)) {
    throw outOfRange('up to 5 m of paper each way', 'paper', `${paper.width} x ${paper.height} mm`);
  }
  const dots = (paper.width * paper.height * dpi * dpi) / mmPerInch ** 2;
  if (isPdf(options) || dots <= mostDots) return;
  const most = `up to ${mostDots / 1e6} million dots for a picture of a page (a .pdf has no such limit)`;
  throw outOfRange(most, 'dpi', dpi);
}

interface OpenPartOptions extends LayPartsOptions {
  readonly change: ChangeColours | null;
}

// Pictures are decoded in a thread of the decoder's each; more at once would only take memory.
const openedAtOnce = 2;

// A file named twice is read once.
async function openParts(
  paths: readonly string[],
  options: OpenPartOptions,
): Promise<readonly OpenPart[]> {
  const named = [...new Set(paths)];
  const opened = new Map<string, OpenPart>();
  const parts = inOrder(named, (path) => openPart(path, options), openedAtOnce);
  for await (const part of parts) opened.set(part.path, part);
  return paths.flatMap((path) => opened.get(path) ?? []);
}

async function openPart(path: string, options: OpenPartOptions): Promise<OpenPart> {
  const bytes = await readPrint(path);
  if (isDrawing(bytes)) {
    const { openDrawnPart } = await import('./open-drawn-part.js');
    const dpi = isPdf(options) ? null : pageDpi(options);
    const { change, linkedIn } = options;
    return openDrawnPart(path, bytes, { dpi, change, blanks: hasBlanks(options), linkedIn });
  }
  const picture = await openPrint(path, bytes, {
    change: options.change,
    blanks: hasBlanks(options),
  });
  const dpi = resolutionOf(picture, options);
  const size = sizeOf(picture, dpi);
  const shown = { ...picture, size, at: { x: 0, y: 0 } };
  const warnings = [...picture.warnings, ...warnOfPrintSize(path, dpi)];
  return { path, size, shown, linked: [], isPrinted: picture.isPrinted, warnings };
}

// Layers of card under the one that carries the print show its shape.
function hasBlanks({ layers = 1 }: SheetPartsOptions): boolean {
  return layers > 1;
}

// By its first character, whatever its name: pictures begin with bytes that are none of it.
function isDrawing(bytes: Buffer): boolean {
  return /^(\xef\xbb\xbf|\xff\xfe|\xfe\xff)?[\s\0]*</.test(bytes.toString('latin1', 0, 100));
}

function resolutionOf({ path, dpi }: PrintPicture, options: SheetPartsOptions): PerAxis<number> {
  const { dpi: told } = options;
  if (dpi !== null && Math.max(dpi.x, dpi.y) >= leastDpi) return dpi;
  if (told !== undefined) return { x: told, y: told };
  throw new TextureError(
    'no-print-size',
    `${showPath(path)} does not say how large it is on paper`,
    {
      hint: 'if it was made for 600 dots per inch, say --dpi 600; gaugerod fill writes pictures that say',
    },
  );
}

// Whole pixels to the metre are what files can say: 599.9988 is meant for 600.
function sizeOf({ pixels }: PrintPicture, dpi: PerAxis<number>): Size<number> {
  const meant = (value: number): number => {
    const whole = Math.round(value);
    return Math.abs(value - whole) < 0.013 ? whole : value;
  };
  return {
    width: (pixels.width * mmPerInch) / meant(dpi.x),
    height: (pixels.height * mmPerInch) / meant(dpi.y),
  };
}

function footerOf({ name }: Paper, page: number, pages: number): string {
  const sheet = pages === 1 ? '' : `sheet ${page} of ${pages}, `;
  return `${sheet}${name === null ? '' : `${name}, `}print at 100 %, not fitted to the page`;
}

function reportPlace(
  { part, page, layer, piece, picture: { box, turned } }: SheetPlace,
  paths: readonly string[],
): SheetedPart {
  return {
    name: paths[part]!,
    page: page + 1,
    xMm: toFigures(box.x, 6),
    yMm: toFigures(box.y, 6),
    widthMm: toFigures(box.width, 6),
    heightMm: toFigures(box.height, 6),
    turned,
    layer,
    piece: piece && { row: piece.row + 1, column: piece.column + 1 },
  };
}

function warnOfPieces(places: readonly SheetPlace[], paths: readonly string[]): readonly Warning[] {
  const cut = new Set(places.filter(({ piece }) => piece !== null).map(({ part }) => part));
  return [...cut].map((part) => {
    const pieces = places.filter((place) => place.part === part && place.layer === 1);
    const name = showPath(paths[part]!);
    const message = `${name} is larger than the paper: it is cut into ${pieces.length} pieces that overlap`;
    return { code: 'cut-in-pieces', message };
  });
}
