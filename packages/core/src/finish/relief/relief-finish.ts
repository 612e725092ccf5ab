import { overlay } from '../../colour/blend.js';
import type { ReliefBand, ReliefDisc, ReliefMark } from '../../page/relief-mark.js';
import type { PerAxis } from '../../surface/measurement.js';
import type { FinishRun, RowFinish } from '../../raster/row-finish.js';
import { type DotShape, toDotShape } from './lay-shape.js';

/** How marks lie on rows. */
export interface ReliefGrid {
  /** Dots to a mm of paper. */
  readonly perMm: number;
  /** Columns. */
  readonly width: number;
  /** Dots from the page's top left corner to the marks' origin; they need not be whole. */
  readonly inset: PerAxis<number>;
}

/**
 * Lay marks over rows, each blended over what lies under it by overlay, in encoded sRGB as its standard
 * says; a pixel that a mark only begins to cover takes as much less of it.
 *
 * @param marks - In the order in which they lie over one another.
 * @param grid - Where they lie.
 * @returns What changes rows.
 * @see W3C Compositing and Blending Level 1, 5 and 10.1.3
 */
export function reliefFinish(marks: readonly ReliefMark[], grid: ReliefGrid): RowFinish {
  const all = marks.map((mark, rank) => ({ ...toDots(mark, grid), rank }));
  // Of the row that is being made, and which of them is being changed.
  let lying: readonly MarkedRun[] = [];
  let at = 0;
  return {
    runs: (y) => {
      at = 0;
      lying = listRuns(
        all.filter((mark) => mark.y0 < y + 1 && mark.y1 > y),
        grid.width,
      );
      return lying;
    },
    change: (colours, y, from) => {
      while ((lying[at]?.to ?? Infinity) <= from) at++;
      for (const mark of lying[at]?.marks ?? []) {
        layMark(mark, { colours, y, from });
      }
    },
  };
}

type DotMark = DotBand | DotDisc | DotShape;

// In dots.
type DotBand = ReliefBand;

interface DotDisc extends ReliefDisc {
  readonly x0: number;
  readonly x1: number;
  readonly y0: number;
  readonly y1: number;
}

function toDots(mark: ReliefMark, grid: ReliefGrid): DotMark {
  const { perMm, inset } = grid;
  if (mark.kind === 'shape') return toDotShape(mark, grid);
  if (mark.kind === 'band') {
    return {
      ...mark,
      x0: inset.x + mark.x0 * perMm,
      x1: inset.x + mark.x1 * perMm,
      y0: inset.y + mark.y0 * perMm,
      y1: inset.y + mark.y1 * perMm,
    };
  }
  const [x, y] = [inset.x + mark.x * perMm, inset.y + mark.y * perMm];
  const radius = mark.radius * perMm;
  // Half a dot around it is begun.
  const reach = radius + 0.5;
  const box = { x0: x - reach, x1: x + reach, y0: y - reach, y1: y + reach };
  return { ...mark, x, y, radius, ...box };
}

interface MarkedRun extends FinishRun {
  readonly marks: readonly DotMark[];
}

type RankedMark = DotMark & { readonly rank: number };

// Between two cuts the same marks lie on every pixel, and whole but on runs of one pixel.
function listRuns(marks: readonly RankedMark[], width: number): readonly MarkedRun[] {
  const cuts = new Set([0, width]);
  for (const { x0, x1 } of marks) {
    for (const x of [x0, x1]) {
      for (const cut of [Math.floor(x), Math.ceil(x)]) if (cut > 0 && cut < width) cuts.add(cut);
    }
  }
  const sorted = [...cuts].sort((a, b) => a - b);
  const coming = [...marks].sort((a, b) => a.x0 - b.x0);
  let next = 0;
  let here: RankedMark[] = [];
  return sorted.slice(1).map((to, i) => {
    const from = sorted[i] ?? 0;
    here = here.filter(({ x1 }) => x1 > from);
    for (let mark = coming[next]; mark !== undefined && mark.x0 < to; mark = coming[++next]) {
      here.push(mark);
    }
    const over = [...here].sort((a, b) => a.rank - b.rank);
    const even = to - from > 1 && over.every(({ kind }) => kind === 'band');
    return { from, to, even, marks: over };
  });
}

interface Row {
  readonly colours: Float32Array;
  readonly y: number;
  readonly from: number;
}

function layMark(mark: DotMark, row: Row): void {
  switch (mark.kind) {
    case 'band':
      layBand(mark, row);
      return;
    case 'disc':
      layDisc(mark, row);
      return;
    case 'shape':
      layShape(mark, row);
  }
}

function layShape({ x0, x1, shadesOf }: DotShape, { colours, y, from }: Row): void {
  const shades = shadesOf(y);
  const to = Math.min(from + colours.length / 3, x1);
  for (let x = Math.max(from, x0); x < to; x++) {
    const shade = shades[x - x0]!;
    if (shade !== 0) blendPixel(colours, 3 * (x - from), shade > 0 ? 1 : 0, Math.abs(shade));
  }
}

function layBand(band: DotBand, { colours, y, from }: Row): void {
  const { x0, x1 } = band;
  const opacity = opacityOf(band, y);
  const to = from + colours.length / 3;
  const [first, last] = [Math.max(from, Math.floor(x0)), Math.min(to, Math.ceil(x1))];
  for (let x = first; x < last; x++) {
    const covered = Math.min(x + 1, x1) - Math.max(x, x0);
    const at = 3 * (x - from);
    if (band.tone === 'paper') barePixel(colours, at, opacity * covered);
    else blendPixel(colours, at, band.tone === 'light' ? 1 : 0, opacity * covered);
  }
}

// In the middle of what it covers of the row, times how much that is.
function opacityOf({ y0, y1, top, foot }: DotBand, y: number): number {
  const [from, to] = [Math.max(y, y0), Math.min(y + 1, y1)];
  const middle = (from + to) / 2;
  return (to - from) * (top + ((foot - top) * (middle - y0)) / (y1 - y0));
}

function layDisc(disc: DotDisc, { colours, y, from }: Row): void {
  const { x: middle, y: level, radius, opacity, light } = disc;
  const to = from + colours.length / 3;
  const [first, last] = [Math.max(from, Math.floor(disc.x0)), Math.min(to, Math.ceil(disc.x1))];
  const down = y + 0.5 - level;
  for (let x = first; x < last; x++) {
    const across = x + 0.5 - middle;
    const covered = Math.min(1, Math.max(0, radius + 0.5 - Math.hypot(across, down)));
    const facing = (across * light.x + down * light.y) / radius;
    const share = covered * opacity * Math.min(1, Math.abs(facing));
    blendPixel(colours, 3 * (x - from), facing > 0 ? 1 : 0, share);
  }
}

function blendPixel(colours: Float32Array, at: number, source: 0 | 1, opacity: number): void {
  for (let i = at; i < at + 3; i++) {
    const backdrop = colours[i]!;
    colours[i] = backdrop + opacity * (overlay(backdrop, source) - backdrop);
  }
}

function barePixel(colours: Float32Array, at: number, opacity: number): void {
  for (let i = at; i < at + 3; i++) colours[i] = colours[i]! + opacity * (1 - colours[i]!);
}
