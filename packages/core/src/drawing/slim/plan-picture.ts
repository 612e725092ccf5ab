import { type Box, boxAround, hasArea, joinBoxes, shareOf } from '../geometry/box.js';
import { fitView } from '../geometry/fit-view.js';
import { applyTo, compose, invert, type Matrix } from '../../numeric/matrix.js';
import type { PicturePlace, PlacedPicture } from '../places/placed-picture.js';
import {
  alignedSpans,
  endOf,
  halvedSpans,
  leavesOut,
  type PerAxis,
  type PixelSize,
  type PlannedSpan,
  reachesPast,
  type Spans,
} from './plan-spans.js';
import { isSameGrid, type PrintGrids, printGrids } from './print-grid.js';

/** What is to become of a picture's pixels. */
export interface PicturePlan {
  /** Along rows. */
  readonly x: PlannedSpan;
  /** Along columns. */
  readonly y: PlannedSpan;
  /** What it is clipped to, in old pixels, where its new ones reach past its edge; or null. */
  readonly frame: Box | null;
  /** Whether part of it is left out. */
  readonly isCropped: boolean;
  /** Whether its new pixels are the dots of the print. */
  readonly isOnDots: boolean;
  /** Dots per inch that its new pixels come to where it shows largest, where they are fewer; or null. */
  readonly dpi: number | null;
}

/** What may become of a picture's pixels. */
export interface PicturePlans {
  /** Each way, the coarsest first; the last keeps every pixel that shows. */
  readonly plans: readonly PicturePlan[];
  /** Dots per inch of the print. */
  readonly dpi: number;
  /** How it lies on the print: where it shows largest, and at places of other sizes. */
  readonly lies: readonly [PictureLie, ...PictureLie[]];
}

/** How a picture lies on the print at a place. */
export interface PictureLie {
  /** From dots of the print to its pixels. */
  readonly dots: Matrix;
  /** Its pixels to a dot there, along rows and columns. */
  readonly perDot: PerAxis;
}

/** What a plan rests on. */
export interface PlanOptions {
  /** Dots per inch that the print holds. */
  readonly dpi: number;
  /** Whether what never shows is kept. */
  readonly keepClipped: boolean;
  /** Whether it may be clipped where its new pixels reach past its edge. */
  readonly mayFrame: boolean;
}

/** How a picture shows, all its places taken together. */
export interface Showing {
  /** Share of its area that shows anywhere, 0 to 1. */
  readonly share: number;
  /** Dots per inch that its pixels come to where it shows largest, along rows and columns. */
  readonly dpi: PerAxis;
}

interface Seen {
  readonly matrix: Matrix;
  readonly shown: Box;
}

// What shows differs from the whole by too little to be worth a change.
const nearlyAll = 0.95;
const margin = 2;

/**
 * Where a picture lies inside the rectangle it is set into.
 *
 * @param picture - Placed.
 * @param rect - The rectangle, in user units.
 * @param size - Its columns and rows.
 * @returns From its pixels to those units.
 */
export function fitPicture(picture: PlacedPicture, rect: Box, size: PixelSize): Matrix {
  const view = { x0: 0, y0: 0, x1: size.width, y1: size.height };
  return fitView(view, rect, picture.aspect);
}

/**
 * Whether a picture covers all of the rectangle it is set into, and no more.
 *
 * @param picture - Placed.
 * @param rect - The rectangle, in user units.
 * @param size - Its columns and rows.
 * @returns No where strips are left, or parts of it are cut off.
 */
export function fillsRect(picture: PlacedPicture, rect: Box, size: PixelSize): boolean {
  const [a, , , d, e, f] = fitPicture(picture, rect, size);
  const [width, height] = [rect.x1 - rect.x0, rect.y1 - rect.y0];
  const off = [
    (e - rect.x0) / width,
    (f - rect.y0) / height,
    (a * size.width) / width - 1,
    (d * size.height) / height - 1,
  ];
  return off.every((share) => Math.abs(share) < 1e-6);
}

function see(picture: PlacedPicture, place: PicturePlace, size: PixelSize): Seen | null {
  const matrix = compose(place.matrix, fitPicture(picture, place.rect, size));
  const back = invert(matrix);
  if (back === null) return null;
  let shown: Box = { x0: 0, y0: 0, x1: size.width, y1: size.height };
  for (const clip of place.clips) {
    shown = shareOf(shown, boxAround(clip.map((spot) => applyTo(back, spot))));
  }
  const within = invert(fitPicture(picture, place.rect, size));
  if (picture.aspect.fit === 'slice' && within !== null) {
    const { x0, y0, x1, y1 } = place.rect;
    const corners = [
      { x: x0, y: y0 },
      { x: x1, y: y1 },
    ];
    shown = shareOf(shown, boxAround(corners.map((corner) => applyTo(within, corner))));
  }
  return { matrix, shown };
}

function seenAnywhere(pictures: readonly PlacedPicture[], size: PixelSize): Seen[] | null {
  const seen = pictures.flatMap((picture) =>
    picture.places.map((place) => see(picture, place, size)),
  );
  const flat = seen.filter((one) => one !== null);
  return flat.length === seen.length && flat.length > 0 ? flat : null;
}

// A place of which nothing shows, off the page or hidden, may be brought in again: all is kept.
function shownBox(seen: readonly Seen[], { width, height }: PixelSize): Box {
  const whole = { x0: 0, y0: 0, x1: width, y1: height };
  let box: Box | null = null;
  for (const { shown } of seen) box = joinBoxes(box, hasArea(shown) ? shown : whole);
  return box ?? whole;
}

// Dots to a pixel, along rows and columns, where it shows largest.
function finest(seen: readonly Seen[], dot: number): PerAxis {
  return {
    x: Math.max(...seen.map(({ matrix: [a, b] }) => Math.hypot(a, b))) / dot,
    y: Math.max(...seen.map(({ matrix: [, , c, d] }) => Math.hypot(c, d))) / dot,
  };
}

/**
 * Tell how much of a picture shows, and how finely.
 *
 * @param pictures - Every element that holds it.
 * @param size - Its columns and rows.
 * @returns How, or null where it shows nowhere or is flattened.
 */
export function showingOf(pictures: readonly PlacedPicture[], size: PixelSize): Showing | null {
  const seen = seenAnywhere(pictures, size);
  if (seen === null) return null;
  const { x0, y0, x1, y1 } = shownBox(seen, size);
  const perInch = finest(seen, 25.4);
  return {
    share: ((x1 - x0) * (y1 - y0)) / (size.width * size.height),
    dpi: { x: 1 / perInch.x, y: 1 / perInch.y },
  };
}

/**
 * Plan what may become of the pixels, so that a print shows the same.
 *
 * @param pictures - Every element that shows them, all understood.
 * @param size - Its columns and rows.
 * @param options - What the print holds, and what is to be kept.
 * @returns The ways, the coarsest first, or null where it is best left as it is.
 */
export function planPicture(
  pictures: readonly PlacedPicture[],
  size: PixelSize,
  options: PlanOptions,
): PicturePlans | null {
  const seen = seenAnywhere(pictures, size);
  const hold = holdOf(pictures, size);
  if (seen === null || hold === 'all' || (hold === 'slice' && !options.mayFrame)) return null;
  const dot = 25.4 / options.dpi;
  const mayFrame = options.mayFrame && hold !== 'box';
  const window = cropWindow(seen, size, { dot, whole: options.keepClipped || hold === 'box' });
  const plain = halvedSpans(window.box, size, { x: 0, y: 0 });
  const fine = finest(seen, dot);
  const perDot = { x: 1 / fine.x, y: 1 / fine.y };
  const aligned = onDots(window.box, seen, { size, dot, mayFrame });
  const fewer = [...aligned, ...halvesOf(window.box, size, perDot)].filter(
    (spans) => areaOf(spans) <= worthwhile * areaOf(plain),
  );
  const plans = [...fewer, plain].map((spans): PicturePlan => {
    const sliced = hold === 'slice' ? seen : null;
    return {
      ...spans,
      frame: frameOf(spans, size, sliced),
      isCropped: window.isCropped && leavesOut(spans, size),
      isOnDots: aligned.includes(spans),
      dpi: spans === plain ? null : dpiOf(spans, finest(seen, 25.4)),
    };
  });
  const [first, ...others] = liesAt(seen, dot);
  if (first === undefined) return null;
  // It may show larger along one axis here, along the other there.
  return { plans, dpi: options.dpi, lies: [{ ...first, perDot }, ...others] };
}

const mostLies = 4;

// The largest first; none for a place of about the size of one before it.
function liesAt(seen: readonly Seen[], dot: number): PictureLie[] {
  const lies: PictureLie[] = [];
  for (const one of seen.toSorted((a, b) => areaUnder(b.matrix) - areaUnder(a.matrix))) {
    const back = invert(one.matrix);
    const fine = finest([one], dot);
    const perDot = { x: 1 / fine.x, y: 1 / fine.y };
    const isNew = lies.every(
      (lie) => !isNear(lie.perDot.x, perDot.x) || !isNear(lie.perDot.y, perDot.y),
    );
    if (back === null || !isNew) continue;
    lies.push({ dots: compose(back, [dot, 0, 0, dot, 0, 0]), perDot });
    if (lies.length === mostLies) break;
  }
  return lies;
}

function isNear(one: number, other: number): boolean {
  return Math.abs(one / other - 1) < 0.02;
}

function areaUnder([a, b, c, d]: Matrix): number {
  return Math.abs(a * d - b * c);
}

function areaOf({ x, y }: Spans): number {
  return x.count * y.count;
}

function dpiOf({ x, y }: Spans, perInch: PerAxis): number {
  return 1 / Math.min(perInch.x * x.pitch, perInch.y * y.pitch);
}

// What must stay of how it is set in: its box, where something is measured by that; all of it, where
// that is no longer the box of its pixels; what cuts it off.
function holdOf(
  pictures: readonly PlacedPicture[],
  size: PixelSize,
): 'box' | 'all' | 'slice' | null {
  if (pictures.some(({ boxMatters }) => boxMatters)) {
    return pictures.every((one) => isFilled(one, size)) ? 'box' : 'all';
  }
  return pictures.some(({ aspect }) => aspect.fit === 'slice') ? 'slice' : null;
}

function isFilled(picture: PlacedPicture, size: PixelSize): boolean {
  return picture.rect !== null && fillsRect(picture, picture.rect, size);
}

// On the dots of the print where they fall alike at each place: a print at that resolution takes each
// pixel as it is.
function onDots(
  box: Box,
  seen: readonly Seen[],
  place: { readonly size: PixelSize; readonly dot: number; readonly mayFrame: boolean },
): Spans[] {
  const { size, dot, mayFrame } = place;
  const grids = commonGrids(seen, size, dot);
  const aligned = grids === null ? null : alignedSpans(box, grids);
  return aligned !== null && (mayFrame || !reachesPast(aligned, size)) ? [aligned] : [];
}

// Halved, once or more: programs that show a picture smaller by halving it still halve the same pixels
// together.
function halvesOf(box: Box, size: PixelSize, perDot: PerAxis): Spans[] {
  const [most, along] = [times(perDot.x), times(perDot.y)];
  return [0, 1].flatMap((less) => {
    const [x, y] = [Math.max(0, most - less), Math.max(0, along - less)];
    return x + y === 0 ? [] : [halvedSpans(box, size, { x, y })];
  });
}

// Pixels left after a change that is worth its while.
const worthwhile = 0.5;

// How often it can be halved and still have a pixel to a dot.
function times(perDot: number): number {
  return Math.min(mostTimes, Math.max(0, Math.floor(Math.log2(perDot) + 1e-6)));
}

const mostTimes = 6;

function cropWindow(
  seen: readonly Seen[],
  size: PixelSize,
  { dot, whole }: { readonly dot: number; readonly whole: boolean },
): { readonly box: Box; readonly isCropped: boolean } {
  const { width, height } = size;
  const all = { x0: 0, y0: 0, x1: width, y1: height };
  const shown = shownBox(seen, size);
  const fine = finest(seen, dot);
  const [mx, my] = [margin * Math.max(1, 1 / fine.x), margin * Math.max(1, 1 / fine.y)];
  const box = shareOf(all, {
    x0: shown.x0 - mx,
    y0: shown.y0 - my,
    x1: shown.x1 + mx,
    y1: shown.y1 + my,
  });
  const share = ((box.x1 - box.x0) * (box.y1 - box.y0)) / (width * height);
  return whole || share > nearlyAll ? { box: all, isCropped: false } : { box, isCropped: true };
}

function commonGrids(seen: readonly Seen[], size: PixelSize, dot: number): PrintGrids | null {
  const [first, ...others] = seen.map(({ matrix }) => printGrids(matrix, dot));
  if (first === undefined || first === null) return null;
  const same = others.every(
    (other) =>
      other !== null &&
      isSameGrid(first.x, other.x, size.width) &&
      isSameGrid(first.y, other.y, size.height),
  );
  return same ? first : null;
}

// Where it is cut off, or its new pixels reach past its edge.
function frameOf({ x, y }: Spans, size: PixelSize, sliced: readonly Seen[] | null): Box | null {
  if (sliced === null && !reachesPast({ x, y }, size)) return null;
  const inside = {
    x0: Math.max(0, x.start),
    y0: Math.max(0, y.start),
    x1: Math.min(size.width, endOf(x)),
    y1: Math.min(size.height, endOf(y)),
  };
  return sliced === null ? inside : shareOf(inside, shownBox(sliced, size));
}
