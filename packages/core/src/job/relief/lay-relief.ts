import { cutFinished } from '../../fill/cut-finished.js';
import {
  type FinishedPage,
  finishRows,
  tileGround,
  wallGround,
  type WallRows,
} from '../../fill/finish-rows.js';
import type { DrawnRelief } from '../../finish/relief/drawn-relief.js';
import { type GroundMean, onGround } from '../../finish/relief/on-ground.js';
import { reliefFinish } from '../../finish/relief/relief-finish.js';
import type { PageRows } from '../../finish/weather/weather-wall.js';
import type { Raster } from '../../raster/raster.js';
import type { MakeFinish, RowFinish } from '../../raster/row-finish.js';
import type { RowSource } from '../../raster/row-source.js';
import type { PerAxis } from '../../surface/measurement.js';
import { mmPerInch } from '../../units/units.js';
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
  /** Dots of each layer of card, where the same dots of the whole lie; transparent elsewhere. */
  readonly layers: readonly RowSource[];
}

/** What lies under relief. */
export interface ReliefGround {
  /** What repeats. */
  readonly tile: Raster;
  /** The pixel of it that lies in the top left corner of the first piece. */
  readonly origin: PerAxis<number>;
  /** The same, weathered, or null. */
  readonly wall: PageRows | null;
  /** Of what repeats, weathered or not. */
  readonly mean: GroundMean;
  /** What is done to rows after light fell on them. */
  readonly finishes: readonly MakeFinish[];
}

/**
 * Lay a ground over pieces and light it: weather is of the steel itself, and light falls on what became of that.
 *
 * @param base - What lies under relief.
 * @param drawn - One piece.
 * @param sheet - The pieces; `begun` where dots that one only begins are shown as well.
 * @returns Their rows.
 */
export function layRelief(
  base: ReliefGround,
  drawn: DrawnRelief,
  sheet: ReliefSheet & { readonly begun: boolean },
): LaidRelief {
  const { tile, origin, wall, mean, finishes } = base;
  const { dpi, copies, gap } = sheet;
  const { marks, size, outline, cards } = drawn;
  const begun = sheet.begun || outline !== null;
  const bleed = outline?.isBled === true ? 0 : sheet.bleed;
  const perMm = dpi / mmPerInch;
  const round = begun ? upwards : Math.round;
  const inset = round(bleed * perMm);
  // What is shown round a piece lies past it: where the piece itself begins, ground and weather do.
  const past = Math.round(sheet.plan.around * perMm);
  const width = Math.max(1, round(size.x * perMm)) + 2 * inset;
  const piece = Math.max(1, round(size.y * perMm)) + 2 * inset;
  const between = Math.round(gap * perMm);
  const pitch = piece + between;
  const page: FinishedPage = {
    width,
    height: copies * pitch - between,
    left: Math.round(origin.x) - inset - past,
    top: Math.round(origin.y) - inset - past,
    dpi,
    piece,
    gap: between,
  };
  // A piece that comes to no whole dots lies in the middle of those that it gets, so that none of its sides is
  // favoured.
  const off = (mm: number): number =>
    begun ? 0 : (Math.max(1, Math.round(mm * perMm)) - mm * perMm) / 2;
  const first = { x: inset + off(size.x), y: inset + off(size.y) };
  const finish = reliefFinish(onGround(marks, mean), { perMm, width, inset: first });
  const ground = wall === null ? tileGround(tile) : wallGround(manyOf(wall, origin));
  const last = finishes.map((make) =>
    make({ width, height: piece, inset: { x: inset, y: inset } }),
  );
  const whole = (over: readonly RowFinish[]): RowSource =>
    finishRows(ground, page, [...over, ...last]);
  const lay = (over: readonly RowFinish[]): RowSource => {
    const rows = whole(over);
    if (outline === null) return rows;
    const loops = outline.loops.map((loop) => loop.map((mm) => mm * perMm + inset));
    const cut = { outline: { loops, rule: outline.rule }, bleed: bleed * perMm };
    return cutFinished(rows, tile, { ...page, ...cut });
  };
  const layers = cards.map(({ area }) => {
    const loops = area.loops.map((loop) =>
      loop.map((mm, i) => mm * perMm + (i % 2 === 0 ? first.x : first.y)),
    );
    const cut = { outline: { loops, rule: area.rule }, bleed: 0 };
    return cutFinished(whole([finish]), tile, { ...page, ...cut });
  });
  return { rows: lay([finish]), flat: lay([]), inset, pitch, layers };
}

// Each piece shows what follows of the tile, and has a past of its own.
function manyOf(wall: PageRows, origin: PerAxis<number>): WallRows {
  return (page, piece) => {
    const down = piece * page.height;
    const shown = { ...page, top: page.top + down };
    return wall({ ...shown, origin: { x: origin.x, y: origin.y + down }, past: piece });
  };
}

// But for what the last digits of a number make of it.
function upwards(dots: number): number {
  return Math.ceil(dots - 1e-6);
}
