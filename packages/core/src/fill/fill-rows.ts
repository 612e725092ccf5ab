import { outOfRange } from '../errors/out-of-range.js';
import type { Raster } from '../raster/raster.js';
import type { MakeFinish } from '../raster/row-finish.js';
import type { RowSource } from '../raster/row-source.js';
import type { PerAxis } from '../surface/measurement.js';
import { type Dpi, mmPerInch, type PrintMm, toDots } from '../units/units.js';
import type { WallRows } from './finish-rows.js';
import { layRows } from './lay-rows.js';

/** A piece of card to cover. */
export interface PartToFill {
  /** From left to right, without bleed. */
  readonly width: PrintMm;
  /** From top to bottom, without bleed. */
  readonly height: PrintMm;
  /** Of the printer. */
  readonly dpi: Dpi;
  /** Extra picture past every edge, to be cut away; none unless told. */
  readonly bleed?: PrintMm | null;
  /**
   * Millimetres of paper from the wall's datum to the part's top left corner, right and down, of
   * any sign: the courses of parts with one datum run on from one to the next. 0,0 unless told.
   */
  readonly datum?: PerAxis<number>;
  /**
   * Whether dots that the part only begins are shown as well, so that none of it is bare where it is
   * cut to size otherwise; its sides are rounded to the nearest dot unless told.
   */
  readonly begun?: boolean;
  /** The pixel of the tile that lies on the datum, such as where a course begins; 0,0 unless told. */
  readonly origin?: PerAxis<number>;
  /** Makes the wall's rows where copies of the tile are not alike, as weather leaves them; none unless told. */
  readonly wall?: WallRows | null;
  /** What is done to rows before they are rounded, in this order; nothing unless told. */
  readonly finishes?: readonly MakeFinish[];
}

/** A filled part: its rows, and what size it came to. */
export interface Fill {
  /** The picture, bleed included, row by row. */
  readonly rows: RowSource;
  /** The wall behind it: the same dots, with nothing cut out. */
  readonly wall: RowSource;
  /** The tile's pixel that lies in the picture's top left corner. */
  readonly tileAt: PerAxis<number>;
  /** Dots from the picture's top left corner to that of the part without bleed. */
  readonly inset: PerAxis<number>;
  /** Dots that bleed adds along every edge. */
  readonly bleedPx: number;
  /** What the picture's whole dots measure on paper, bleed included. */
  readonly sizeMm: {
    /** From left to right. */
    readonly width: number;
    /** From top to bottom. */
    readonly height: number;
  };
}

// 2^31 - 1: what a PNG can say.
const mostPixels = 2_147_483_647;

/**
 * Cover a part with a tile, exact to the pixel, without holding the page: a row is copied together
 * when it is asked for. The size is `round(mm * dpi / 25.4)`, bleed is rounded once and added
 * outside, and so is the way from the datum.
 *
 * @param tile - Repeats every `width` by `height` pixels, at print resolution.
 * @param part - What to cover.
 * @returns The rows, and the size they came to.
 * @throws RangeError when the part comes to no pixel or to more than a picture can have.
 */
export function fillRows(tile: Raster, part: PartToFill): Fill {
  const { dpi, bleed = null, datum = { x: 0, y: 0 }, origin = { x: 0, y: 0 } } = part;
  const round = part.begun === true ? upwards : Math.round;
  const bleedPx = bleed === null ? 0 : round(toDots(bleed, dpi));
  const width = sideOf(round(toDots(part.width, dpi)), dpi, 'width') + 2 * bleedPx;
  const height = sideOf(round(toDots(part.height, dpi)), dpi, 'height') + 2 * bleedPx;
  const left = startOf(datum.x, dpi, 'datum x') + Math.round(origin.x) - bleedPx;
  const top = startOf(datum.y, dpi, 'datum y') + Math.round(origin.y) - bleedPx;
  const toMm = mmPerInch / dpi;
  const sizeMm = { width: width * toMm, height: height * toMm };
  const inset = { x: bleedPx, y: bleedPx };
  const finishes = (part.finishes ?? []).map((make) => make({ width, height, inset }));
  const over = { wall: part.wall ?? null, finishes };
  const rows = layRows(tile, { width, height, left, top, dpi }, over);
  return { rows, wall: rows, tileAt: { x: left, y: top }, inset, bleedPx, sizeMm };
}

// But for what the last digits of a number make of it.
function upwards(dots: number): number {
  return Math.ceil(dots - 1e-6);
}

function sideOf(side: number, dpi: Dpi, name: string): number {
  if (!(side >= 1 && side <= mostPixels)) {
    throw outOfRange(`1 to ${mostPixels} dots at ${dpi} dpi`, name, `${side} dots`);
  }
  return side;
}

function startOf(mm: number, dpi: Dpi, name: string): number {
  if (!Number.isFinite(mm)) throw outOfRange('finite millimetres', name, mm);
  return Math.round((mm * dpi) / mmPerInch);
}
