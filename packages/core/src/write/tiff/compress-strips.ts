import { promisify } from 'node:util';
import { constants, deflate, type ZlibOptions } from 'node:zlib';
import { inOrder } from '../in-order.js';
import { unhurried, type WrittenRows } from '../written-rows.js';
import { differenceRows } from './difference-rows.js';
import type { StripPlan } from './plan-strips.js';

const deflateStrip = promisify<Uint8Array, ZlibOptions, Buffer>(deflate);

// Strips under way at a time.
const ahead = 4;
// As for PNG: up to here a smaller file is worth more than time.
const smallBytes = 16 << 20;

// The first rows of a picture, cut into strips, each in a buffer of its own.
async function* cutStrips(
  source: WrittenRows,
  tall: number,
  count: number,
): AsyncGenerator<Uint8Array> {
  const stride = (source.channels ?? 3) * source.width;
  let strip = new Uint8Array(0);
  let filled = 0;
  let done = 0;
  for await (const rows of unhurried(source)) {
    for (const row of rows) {
      if (filled === strip.length) {
        strip = new Uint8Array(stride * Math.min(tall, count - done));
        filled = 0;
      }
      strip.set(row, filled);
      filled += stride;
      done++;
      if (filled === strip.length) yield strip;
      if (done === count) return;
    }
  }
  throw new Error(`a picture said to have ${source.height} rows gave ${done}`);
}

/**
 * Compress a picture strip by strip. Strips that come again are compressed once.
 *
 * @param source - The picture.
 * @param plan - How it is cut.
 * @yields Every strip, in order.
 * @see TIFF 6.0, section 14 (differences), and its supplement 2 (Adobe deflate)
 */
export async function* compressStrips(
  source: WrittenRows,
  plan: StripPlan,
): AsyncGenerator<Uint8Array> {
  const { width, height, channels = 3 } = source;
  const { rows, count, period } = plan;
  const stride = channels * width;
  const level = stride * rows * period <= smallBytes ? 6 : 4;
  const strategy = source.isVaried === true ? constants.Z_RLE : constants.Z_DEFAULT_STRATEGY;
  const begin = (strip: Uint8Array): Promise<Uint8Array> => {
    differenceRows(strip, stride, channels);
    return deflateStrip(strip, { level, strategy, memLevel: 9, chunkSize: 1 << 18 });
  };
  const repeats = period < count;
  const held: Uint8Array[] = [];
  for await (const strip of inOrder(
    cutStrips(source, rows, Math.min(height, rows * period)),
    begin,
    ahead,
  )) {
    if (repeats) held.push(strip);
    yield strip;
  }
  if (!repeats) return;
  const whole = Math.floor(height / rows);
  for (let i = period; i < whole; i++) yield held[i % period]!;
  if (whole < count) yield begin(await lastStrip(source, plan));
}

// Cut short, it begins as some strip of the first period does.
async function lastStrip(
  source: WrittenRows,
  { rows, count, period }: StripPlan,
): Promise<Uint8Array> {
  const tall = source.height - (count - 1) * rows;
  let last: Uint8Array = new Uint8Array(0);
  for await (const strip of cutStrips(source, rows, ((count - 1) % period) * rows + tall))
    last = strip;
  return last;
}
