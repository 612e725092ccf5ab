import { type FinishedPage, finishRows } from '../fill/finish-rows.js';
import { reliefFinish } from '../finish/relief/relief-finish.js';
import type { ReliefMark } from '../page/relief-mark.js';
import type { Raster } from '../raster/raster.js';
import type { RowFinish } from '../raster/row-finish.js';
import type { RowSource } from '../raster/row-source.js';
import type { PerAxis } from '../surface/measurement.js';
import { mmPerInch } from '../units/units.js';
import type { ReliefSheet } from './plan-relief.js';

/** Pieces in relief, ready to be written. */
export interface LaidRelief {
  /** Their dots. */
  readonly rows: RowSource;
  /** The same dots without relief. */
  readonly flat: RowSource;
  /** From the top left corner of the sheet of the first dots to that of the first piece without bleed, in dots. */
  readonly inset: number;
  /** From piece to piece, in dots. */
  readonly pitch: number;
}

/** What lies under relief. */
export interface Ground {
  /** What repeats. */
  readonly tile: Raster;
  /** The pixel of it that lies in the top left corner of the first piece. */
  readonly origin: PerAxis<number>;
}

/**
 * Lay a ground over pieces and light it.
 *
 * @param ground - What lies under relief.
 * @param marks - Of one piece.
 * @param sheet - The pieces; `begun` where dots that one only begins are shown as well.
 * @returns Their rows.
 */
export function layRelief(
  ground: Ground,
  marks: readonly ReliefMark[],
  sheet: ReliefSheet & { readonly begun: boolean },
): LaidRelief {
  const { tile, origin } = ground;
  const { plan, depth, dpi, bleed, copies, gap, begun } = sheet;
  const perMm = dpi / mmPerInch;
  const round = begun ? upwards : Math.round;
  const inset = round(bleed * perMm);
  const width = Math.max(1, round(plan.length * perMm)) + 2 * inset;
  const piece = Math.max(1, round(depth * perMm)) + 2 * inset;
  const between = Math.round(gap * perMm);
  const pitch = piece + between;
  const page: FinishedPage = {
    width,
    height: copies * pitch - between,
    left: Math.round(origin.x) - inset,
    top: Math.round(origin.y) - inset,
    dpi,
    piece,
    gap: between,
    inset,
  };
  const finish = reliefFinish(begun ? marks : centre(marks, sheet, perMm), {
    perMm,
    left: -inset,
    right: width - inset,
  });
  const plain: RowFinish = {
    runs: () => [{ from: -inset, to: width - inset, even: true }],
    change: () => undefined,
  };
  return {
    rows: finishRows(tile, page, finish),
    flat: finishRows(tile, page, plain),
    inset,
    pitch,
  };
}

// A piece that comes to no whole dots lies in the middle of those that it gets, so that none of its sides
// is favoured.
function centre(
  marks: readonly ReliefMark[],
  { plan, depth }: ReliefSheet,
  perMm: number,
): readonly ReliefMark[] {
  const off = (mm: number): number => (Math.max(1, Math.round(mm * perMm)) / perMm - mm) / 2;
  const [x, y] = [off(plan.length), off(depth)];
  return marks.map((mark) => {
    if (mark.kind === 'disc') return { ...mark, x: mark.x + x, y: mark.y + y };
    const { x0, x1, y0, y1 } = mark;
    return { ...mark, x0: x0 + x, x1: x1 + x, y0: y0 + y, y1: y1 + y };
  });
}

// But for what the last digits of a number make of it.
function upwards(dots: number): number {
  return Math.ceil(dots - 1e-6);
}
