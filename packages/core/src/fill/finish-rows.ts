import { wrapInto } from '../numeric/wrap-into.js';
import { toSrgb } from '../colour/srgb.js';
import type { Raster } from '../raster/raster.js';
import type { FinishRun, RowFinish } from '../raster/row-finish.js';
import type { RowSource } from '../raster/row-source.js';
import type { Dpi } from '../units/units.js';
import type { PageWindow } from './copy-rows.js';

/** A page of pieces, one under the other, all finished alike. */
export interface FinishedPage extends PageWindow {
  /** Of the printer. */
  readonly dpi: Dpi;
  /** Rows of a piece. */
  readonly piece: number;
  /** White rows between two pieces. */
  readonly gap: number;
  /** Where a finish has its origin in a piece: dots from its left and its top. */
  readonly inset: number;
}

/**
 * Lay a tile over pieces and finish its rows as they are made: colours are rounded to bytes once, at the
 * end. Each piece shows what follows of the tile, until its rows are used up; then they begin again, so
 * that a sheet of pieces repeats.
 *
 * @param tile - Repeats every `width` by `height` pixels.
 * @param page - What is shown of it.
 * @param finish - What is done to each row.
 * @returns Its rows, which repeat.
 */
export function finishRows(tile: Raster, page: FinishedPage, finish: RowFinish): RowSource {
  const { width, height, dpi, piece, gap } = page;
  const pitch = piece + gap;
  const different = Math.max(1, Math.floor(tile.height / piece));
  const period = pitch * different;
  return {
    width,
    height,
    dpi,
    ...(period < height && { period }),
    rows: () => makeRows(tile, page, { finish, different }),
  };
}

interface Finishing {
  readonly finish: RowFinish;
  readonly different: number;
}

function* makeRows(
  tile: Raster,
  page: FinishedPage,
  { finish, different }: Finishing,
): Generator<Uint8Array> {
  const { width, height, left, top, piece, gap, inset } = page;
  const pitch = piece + gap;
  const row = new Uint8Array(3 * width);
  const ground = new Float32Array(3 * tile.width);
  const scratch = new Float32Array(3 * width);
  for (let line = 0; line < height; line++) {
    const y = line % pitch;
    if (y >= piece) {
      yield row.fill(255);
      continue;
    }
    const which = Math.floor(line / pitch) % different;
    encodeLine(tile, wrapInto(top + which * piece + y, tile.height), ground);
    for (const run of finish.runs(y - inset)) {
      const pixels = run.even ? Math.min(run.to - run.from, tile.width) : run.to - run.from;
      const colours = scratch.subarray(0, 3 * pixels);
      layAround(colours, ground, 3 * wrapInto(left + inset + run.from, tile.width));
      finish.change(colours, y - inset, run.from);
      toBytes(colours, row, run, inset);
    }
    yield row;
  }
}

function encodeLine({ width, planes }: Raster, y: number, out: Float32Array): void {
  planes.forEach((plane, channel) => {
    for (let from = y * width, to = channel; to < out.length; from++, to += 3) {
      out[to] = toSrgb(plane[from]!);
    }
  });
}

function layAround(out: Float32Array, ground: Float32Array, from: number): void {
  const first = Math.min(out.length, ground.length - from);
  out.set(ground.subarray(from, from + first));
  for (let done = first; done < out.length; done += ground.length) {
    out.set(ground.subarray(0, Math.min(ground.length, out.length - done)), done);
  }
}

// What stands is copied on to the end of the run.
function toBytes(
  colours: Float32Array,
  row: Uint8Array,
  { from, to }: FinishRun,
  inset: number,
): void {
  const begin = 3 * (from + inset);
  const end = 3 * (to + inset);
  for (let i = 0; i < colours.length; i++) row[begin + i] = Math.round(255 * colours[i]!);
  for (let done = colours.length; begin + done < end; done *= 2) {
    row.copyWithin(begin + done, begin, Math.min(begin + done, end - done));
  }
}
