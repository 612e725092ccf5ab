import type { DrawnArea, DrawnMark, DrawnShape } from '../../page/drawn.js';
import { type Bounds, boundsOfArea, boundsOfMark, overlapOf } from '../../page/bounds-of-mark.js';
import type { Box, PlacedPicture } from '../../page/page.js';
import { applyTo, compose, identity, invert, type Matrix } from '../../numeric/matrix.js';
import type { PerAxis } from '../../surface/measurement.js';
import type { Size } from '../../units/parse-size.js';
import { loadSharp } from '../load-sharp.js';
import type { PixelWindow } from './dot-picture.js';
import type { PageBytes } from './draw-line.js';
import type { OpenedPictures } from './opened-pictures.js';
import type { PageDrawing } from './page-picture.js';
import { printable, type TileMark, type TilePicture, tileText } from './tile-text.js';

/** Where a drawing goes on a page that is a picture. */
export interface LayDrawingOptions {
  /** Dots to a mm of the part. */
  readonly perMm: PerAxis<number>;
  /** Columns and rows of all of the page. */
  readonly page: Size<number>;
  /** Its pictures, opened when they are first shown. */
  readonly opened: OpenedPictures;
}

/**
 * Draws what a part shows on some rows of a page.
 *
 * @param rows - Those; changed in place.
 * @param top - Of the page, the first of them.
 */
export type PageLayer = (rows: PageBytes, top: number) => Promise<void>;

// Small enough that what it takes to draw one is nothing beside the page, whatever pictures are turned on it.
const tile = 768;
// Of a picture around what a tile shows, for smoothing.
const around = 3;

interface Seen {
  readonly mark: DrawnMark;
  /** In dots of the drawing's place. */
  readonly bounds: Bounds;
}

/**
 * Ready a part that is a drawing to be drawn on a page that is a picture, tile by tile. Its shapes have smooth
 * edges; a picture made for the page's resolution is copied dot by dot, laid on the nearest whole one.
 *
 * @param placed - What of the drawing the page shows, and how that lies.
 * @param drawing - What it shows, and its pictures.
 * @param options - Where on the page.
 * @returns What draws it.
 */
export function layDrawing(
  placed: PlacedPicture,
  drawing: PageDrawing,
  options: LayDrawingOptions,
): PageLayer {
  const { perMm, page } = options;
  const dots = dotsOf(placed.box, perMm, page);
  const matrix = compose([perMm.x, 0, 0, perMm.y, -dots.x, -dots.y], toPage(placed));
  const whole = { ...options, placed, drawing, matrix };
  return async (rows, top) => {
    const y = Math.max(top, dots.y) - dots.y;
    const height = Math.min(top + rows.height, dots.y + dots.height) - dots.y - y;
    if (height <= 0) return;
    const seen = listSeen(drawing, placed.piece, matrix);
    for (let x = 0; x < dots.width; x += tile) {
      const box = { x, y, width: Math.min(tile, dots.width - x), height };
      copyRows(
        rows,
        { ...box, x: dots.x + x, y: dots.y + y - top },
        await drawTile(seen, box, whole),
      );
    }
  };
}

async function drawTile(seen: readonly Seen[], box: Box, whole: Whole): Promise<Uint8Array> {
  const { x, y, width, height } = box;
  const inside = { x0: x, y0: y, x1: x + width, y1: y + height };
  const shift: Matrix = [1, 0, 0, 1, -x, -y];
  const marks: TileMark[] = [];
  for (const { mark, bounds } of seen) {
    const shown = overlapOf(bounds, inside);
    if (!(shown.x1 > shown.x0 && shown.y1 > shown.y0)) continue;
    if (mark.kind === 'shape') marks.push(mark);
    else {
      const laid = await takePicture(mark, shown, { ...whole, shift });
      if (laid !== null) marks.push(laid);
    }
  }
  const matrix = compose(shift, whole.matrix);
  const text = tileText(marks, { size: { width, height }, matrix, blank: whole.placed.blank });
  return drawText(text);
}

// Every dot of the page that it reaches into.
function dotsOf({ x, y, width, height }: Box, perMm: PerAxis<number>, page: Size<number>): Box {
  const [left, top] = [Math.floor(x * perMm.x), Math.floor(y * perMm.y)];
  const right = Math.min(page.width, Math.ceil((x + width) * perMm.x));
  const foot = Math.min(page.height, Math.ceil((y + height) * perMm.y));
  return { x: left, y: top, width: right - left, height: foot - top };
}

// From mm of the part to mm of the page.
function toPage({ box, piece, turned, mirrored }: PlacedPicture): Matrix {
  const cut: Matrix = [1, 0, 0, 1, -piece.x, -piece.y];
  const flip: Matrix = mirrored ? [-1, 0, 0, 1, piece.width, 0] : [1, 0, 0, 1, 0, 0];
  const turn: Matrix = turned
    ? [0, 1, -1, 0, box.x + box.width, box.y]
    : [1, 0, 0, 1, box.x, box.y];
  return compose(turn, compose(flip, cut));
}

// All that shows of it is inside the piece.
function listSeen({ marks, pictures }: PageDrawing, piece: Box, matrix: Matrix): readonly Seen[] {
  const { x, y, width, height } = piece;
  const edge: DrawnArea = {
    steps: [
      ['M', x, y],
      ['L', x + width, y],
      ['L', x + width, y + height],
      ['L', x, y + height],
    ],
    matrix: identity,
    rule: 'nonzero',
  };
  const none = { width: 0, height: 0 };
  return marks.map((bare) => {
    const mark = { ...bare, clips: [edge, ...bare.clips] };
    const pixels = mark.kind === 'picture' ? pictures[mark.picture]!.pixels : none;
    const wide = { ...mark, ...widened(mark, compose(matrix, mark.matrix)) };
    const bounds = mark.clips.map(boundsOfArea).reduce(overlapOf, boundsOfMark(wide, pixels));
    return { mark, bounds: movedBounds(bounds, matrix) };
  });
}

// Its corners stick out as far as it is drawn wide.
function widened(mark: DrawnMark, matrix: Matrix): Pick<DrawnShape, 'line'> | null {
  return mark.kind === 'shape' && mark.line ? { line: printable(mark.line, matrix) } : null;
}

// Turned by quarters at most; smoothed over a dot.
function movedBounds({ x0, y0, x1, y1 }: Bounds, matrix: Matrix): Bounds {
  const [one, other] = [applyTo(matrix, { x: x0, y: y0 }), applyTo(matrix, { x: x1, y: y1 })];
  return {
    x0: Math.min(one.x, other.x) - 1,
    y0: Math.min(one.y, other.y) - 1,
    x1: Math.max(one.x, other.x) + 1,
    y1: Math.max(one.y, other.y) + 1,
  };
}

interface Whole extends LayDrawingOptions {
  readonly placed: PlacedPicture;
  readonly drawing: PageDrawing;
  readonly matrix: Matrix;
}

interface Laying extends Whole {
  readonly shift: Matrix;
}

// As much of a picture as a tile shows, or null where that is nothing.
async function takePicture(
  mark: Extract<DrawnMark, { kind: 'picture' }>,
  shown: Bounds,
  laying: Laying,
): Promise<TilePicture | null> {
  const { placed, drawing, matrix, shift, opened } = laying;
  const { bytes, shape, pixels } = drawing.pictures[mark.picture]!;
  const { clips } = mark;
  const place = compose(matrix, mark.matrix);
  const taken = placed.blank ? shape : bytes;
  if (taken === null) return { png: null, pixels, matrix: compose(shift, place), clips };
  const picture = await opened.open(taken, pixels, place);
  const whole = onDots(
    compose(place, [
      pixels.width / picture.pixels.width,
      0,
      0,
      pixels.height / picture.pixels.height,
      0,
      0,
    ]),
    picture.pixels,
  );
  const window = windowOf(whole, shown, picture.pixels);
  if (window === null) return null;
  const laid = compose(shift, compose(whole, [1, 0, 0, 1, window.left, window.top]));
  return { png: await picture.cut(window, liesOnSide(whole)), pixels: window, matrix: laid, clips };
}

// Whether a row of the page goes down the picture rather than across it, whoever turned it.
function liesOnSide(matrix: Matrix): boolean {
  const [across = 1, down = 0] = invert(matrix) ?? [];
  return Math.abs(down) > Math.abs(across);
}

// Where a pixel is a dot, all over the picture, its pixels lie on dots.
function onDots(matrix: Matrix, { width, height }: Size<number>): Matrix {
  const [a, b, c, d, e, f] = matrix;
  const whole = [a, b, c, d].map(Math.round) as [number, number, number, number];
  const off = (now: number, then: number, length: number): number => Math.abs(now - then) * length;
  const most = Math.max(
    off(a, whole[0], width) + off(c, whole[2], height),
    off(b, whole[1], width) + off(d, whole[3], height),
  );
  const isUnit = Math.abs(whole[0] * whole[3] - whole[1] * whole[2]) === 1;
  return isUnit && most < 0.5 ? [...whole, Math.round(e), Math.round(f)] : matrix;
}

function windowOf(matrix: Matrix, shown: Bounds, pixels: Size<number>): PixelWindow | null {
  const back = invert(matrix);
  if (back === null) return null;
  const { x0, y0, x1, y1 } = shown;
  const corners = [
    { x: x0, y: y0 },
    { x: x1, y: y0 },
    { x: x0, y: y1 },
    { x: x1, y: y1 },
  ].map((spot) => applyTo(back, spot));
  const [across, down] = [corners.map(({ x }) => x), corners.map(({ y }) => y)];
  const left = Math.max(0, Math.floor(Math.min(...across)) - around);
  const top = Math.max(0, Math.floor(Math.min(...down)) - around);
  const width = Math.min(pixels.width, Math.ceil(Math.max(...across)) + around) - left;
  const height = Math.min(pixels.height, Math.ceil(Math.max(...down)) + around) - top;
  return width >= 1 && height >= 1 ? { left, top, width, height } : null;
}

// The renderer refuses long attributes unless told that there is no need: all of this is our own.
async function drawText(text: Buffer): Promise<Uint8Array> {
  const sharp = await loadSharp();
  return sharp(text, { unlimited: true, limitInputPixels: false }).removeAlpha().raw().toBuffer();
}

function copyRows(page: PageBytes, { x, y, width, height }: Box, rows: Uint8Array): void {
  const stride = 3 * width;
  for (let i = 0; i < height; i++) {
    page.bytes.set(rows.subarray(stride * i, stride * (i + 1)), 3 * ((y + i) * page.width + x));
  }
}
