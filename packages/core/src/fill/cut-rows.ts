import { outOfRange } from '../errors/out-of-range.js';
import type { Raster } from '../raster/raster.js';
import type { MakeFinish } from '../raster/row-finish.js';
import type { RowSource } from '../raster/row-source.js';
import type { PerAxis } from '../surface/measurement.js';
import { type Dpi, mmPerInch, type PrintMm } from '../units/units.js';
import { copyRows, type TileSamples } from './copy-rows.js';
import { encodeTile } from './encode-tile.js';
import type { Fill } from './fill-rows.js';
import type { WallRows } from './finish-rows.js';
import { layRows } from './lay-rows.js';
import { clearPixel, coverPart, cutRow, nextCover, widenRow } from './outline/cut-out.js';
import { boxOfLoops, type PartOutline } from './outline/part-outline.js';

/** A piece of card of any shape to cover. */
export interface ShapeToFill {
  /** Its shape. */
  readonly outline: PartOutline;
  /** Of the printer. */
  readonly dpi: Dpi;
  /** Extra picture past its outer edge, to be cut away; windows get none. None unless told. */
  readonly bleed?: PrintMm | null;
  /**
   * Millimetres of paper from the wall's datum to the top left corner of the rectangle round the
   * outline, right and down, of any sign; 0,0 unless told.
   */
  readonly datum?: PerAxis<number>;
  /** The pixel of the tile that lies on the datum; 0,0 unless told. */
  readonly origin?: PerAxis<number>;
  /** Makes the wall's rows where copies of the tile are not alike, as weather leaves them; none unless told. */
  readonly wall?: WallRows | null;
  /** What is done to rows before they are rounded, in this order; nothing unless told. */
  readonly finishes?: readonly MakeFinish[];
}

// What a shape may stick out by and yet take no more dots: the last digits of numbers.
const slack = 1e-6;
const mostSide = 1_000_000;

/**
 * Cover a part of any shape with a tile, without holding the page: a pixel is as opaque as it lies
 * inside the outline, exactly, and transparent outside and in holes. The wall's own dots are kept, so
 * that pixels of parts with one datum are the same where both are opaque: the picture begins on the
 * dot in which the outline does.
 *
 * @param tile - Repeats every `width` by `height` pixels, at print resolution.
 * @param part - What to cover.
 * @returns The rows, RGBA, and the size they came to.
 * @throws RangeError when the part comes to no pixel or to more than a picture can have.
 * @throws TextureError `bad-drawing`, while rows are made, where the outline crosses itself without end.
 */
export function cutRows(tile: Raster, part: ShapeToFill): Fill {
  const { dpi, outline, datum = { x: 0, y: 0 }, origin = { x: 0, y: 0 }, wall = null } = part;
  const perMm = dpi / mmPerInch;
  const bleed = (part.bleed ?? 0) * perMm;
  const box = boxOfLoops(outline.loops);
  const begin = { x: datum.x * perMm, y: datum.y * perMm };
  const left = Math.floor(begin.x - bleed + slack);
  const top = Math.floor(begin.y - bleed + slack);
  const width = sideOf(begin.x + (box.x1 - box.x0) * perMm + bleed - left, 'width');
  const height = sideOf(begin.y + (box.y1 - box.y0) * perMm + bleed - top, 'height');
  const shape: PartOutline = {
    rule: outline.rule,
    loops: outline.loops.map((loop) =>
      loop.map((mm, i) =>
        i % 2 === 0
          ? (mm - box.x0) * perMm + begin.x - left
          : (mm - box.y0) * perMm + begin.y - top,
      ),
    ),
  };
  const page = { left: left + Math.round(origin.x), top: top + Math.round(origin.y) };
  const clear = clearPixel(tile);
  const size = { width, height };
  const inset = { x: begin.x - left, y: begin.y - top };
  const finishes = (part.finishes ?? []).map((make) => make({ ...size, inset }));
  const whole = layRows(tile, { ...size, ...page, dpi }, { wall, finishes });
  const bytes = wall === null && finishes.length === 0 ? encodeOpaque(tile) : null;
  const under = (): Iterable<Uint8Array> =>
    bytes === null ? makeOpaque(whole.rows(), width) : copyRows(bytes, { ...size, ...page });
  const rows: RowSource = {
    ...size,
    dpi,
    channels: 4,
    isVaried: wall !== null,
    rows: () => cutOut(under(), clear, coverPart(shape, bleed, size)),
  };
  return {
    rows,
    wall: whole,
    tileAt: { x: page.left, y: page.top },
    inset,
    bleedPx: Math.round(bleed),
    sizeMm: { width: width / perMm, height: height / perMm },
  };
}

function sideOf(dots: number, name: string): number {
  const side = Math.max(1, Math.ceil(dots - slack));
  if (!(side <= mostSide)) throw outOfRange(`up to ${mostSide} dots`, name, `${side} dots`);
  return side;
}

function* cutOut(
  rows: Iterable<Uint8Array>,
  clear: number,
  covers: Generator<Float64Array, void>,
): Generator<Uint8Array> {
  for (const row of rows) {
    cutRow(row, nextCover(covers), clear);
    yield row;
  }
}

// Of a tile each row is made opaque once.
function encodeOpaque(tile: Raster): TileSamples<Uint8Array> {
  const colours = encodeTile(tile);
  const { columns } = colours;
  const rows: Uint8Array[] = [];
  const make = (y: number): Uint8Array => widenRow(colours.row(y), new Uint8Array(4 * columns));
  return { ...colours, channels: 4, row: (y) => (rows[y] ??= make(y)) };
}

function* makeOpaque(rows: Iterable<Uint8Array>, width: number): Generator<Uint8Array> {
  const wide = new Uint8Array(4 * width);
  for (const row of rows) yield widenRow(row, wide);
}
