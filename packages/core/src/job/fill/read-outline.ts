import { limitsOf } from '../../read/held-limits.js';
import { decodeDrawing } from '../../drawing/decode-drawing.js';
import { takeOutline } from '../../drawing/outline/take-outline.js';
import { readDrawing } from '../../drawing/read-drawing.js';
import { TextureError } from '../../errors/texture-error.js';
import { boxOfLoops, type OutlineBox, type PartOutline } from '../../fill/outline/part-outline.js';
import { shareOfBox } from '../../fill/outline/share-of-box.js';
import { readDrawingBytes } from '../../read/read-drawing-bytes.js';
import type { Size } from '../../units/parse-size.js';
import { type Dpi, mmPerInch, type PrintMm, printMm } from '../../units/units.js';
import { explainDrawing } from '../open/explain-drawing.js';
import { refuseDrawing } from '../open/refuse-drawing.js';
import { toFigures } from '../to-figures.js';

/** A shape of a drawing that a piece of card is to have. */
export interface OutlineSource {
  /** Of the drawing, `.svg`. */
  readonly path: string;
  /** Of the shape; the drawing's only one unless told. */
  readonly id?: string;
}

/** What is said of an outline. */
export interface OutlineReport {
  /** The drawing. */
  readonly path: string;
  /** The shape's id, or null where it has none. */
  readonly id: string | null;
  /** From the left edge of the drawing's page to the shape. */
  readonly xMm: number;
  /** From the top edge of the drawing's page to the shape. */
  readonly yMm: number;
  /** What the shape measures from left to right. */
  readonly widthMm: number;
  /** What the shape measures from top to bottom. */
  readonly heightMm: number;
}

/** A shape of a drawing at its size on paper, and what is said of it. */
export interface ReadOutline {
  /** Its shape. */
  readonly shape: PartOutline;
  /** The rectangle round it. */
  readonly size: Size<PrintMm>;
  /** What is said of it. */
  readonly report: OutlineReport;
}

// Dots that a straight piece may be away from the curve it stands for.
const flatness = 0.02;

/**
 * Read the outline of a piece of card from a drawing.
 *
 * @param source - Where it lies.
 * @param dpi - Of the printer: curves are as smooth as it can tell.
 * @returns Its shape, and where it stands.
 * @throws TextureError when the drawing does not allow it.
 */
export async function readOutline(source: OutlineSource, dpi: Dpi): Promise<ReadOutline> {
  const { path, id } = source;
  const { bytes } = await readDrawingBytes(path);
  try {
    const drawing = readDrawing(decodeDrawing(bytes).text, limitsOf('drawing'));
    const tolerance = (flatness * mmPerInch) / dpi;
    const taken = takeOutline(drawing, { tolerance, ...(id !== undefined && { id }) });
    if (!taken.ok) throw refuseDrawing(path, taken.code, taken);
    const { loops, rule } = taken.value;
    const box = boxOfLoops(loops);
    refuseEmpty(path, { loops, rule }, Math.ceil(((box.y1 - box.y0) * dpi) / mmPerInch));
    const report = { path, id: taken.value.id, ...figuresOf(box) };
    return { shape: { loops, rule }, size: sizeOf(box), report };
  } catch (cause) {
    throw explainDrawing(path, cause);
  }
}

// Before the long work that leads to it.
function refuseEmpty(path: string, shape: PartOutline, rows: number): void {
  if (shareOf(path, shape, rows) > leastShare) return;
  throw refuseDrawing(path, 'no-outline', {
    message:
      'holds an outline that encloses no area: where its loops lie over one another they cancel',
    hint: 'draw its edge once, or set fill-rule to nonzero',
  });
}

function shareOf(path: string, shape: PartOutline, rows: number): number {
  // What is too jagged for a quick look may be filled all the same: by as much work, on as many rows.
  return tryShare(() => shareOfBox(shape)) ?? tryShare(() => shareOfBox(shape, rows)) ?? refuse();

  function refuse(): never {
    throw refuseDrawing(path, 'bad-drawing', {
      message: 'holds an outline that crosses itself, or is jagged, too often to be filled',
      hint: 'draw it with fewer points, as a line that does not cross itself',
    });
  }
}

function tryShare(share: () => number): number | null {
  try {
    return share();
  } catch (cause) {
    if (cause instanceof TextureError) return null;
    throw cause;
  }
}

// What digits of numbers come to.
const leastShare = 1e-6;

function figuresOf({ x0, y0, x1, y1 }: OutlineBox): Omit<OutlineReport, 'path' | 'id'> {
  return {
    xMm: toFigures(x0, 6),
    yMm: toFigures(y0, 6),
    widthMm: toFigures(x1 - x0, 6),
    heightMm: toFigures(y1 - y0, 6),
  };
}

function sizeOf({ x0, y0, x1, y1 }: OutlineBox): Size<PrintMm> {
  return { width: printMm(x1 - x0), height: printMm(y1 - y0) };
}
