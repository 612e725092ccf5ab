import { Readable } from 'node:stream';
import { createInflate } from 'node:zlib';
import { pngChunks, pngHead } from './png-head.js';

/** What a PNG that is read by its rows is like. */
interface PlainPng {
  /** Columns. */
  readonly width: number;
  /** Rows. */
  readonly height: number;
  /** Samples of 8 bits a pixel: RGB, or RGBA, its colours not multiplied. */
  readonly channels: 3 | 4;
}

/**
 * Look whether a file is a PNG that can be read by its rows.
 *
 * @param bytes - A file.
 * @returns What it is like; null where it is interlaced, of another depth or kind, or no PNG.
 */
export function lookAtPng(bytes: Uint8Array): PlainPng | null {
  const head = pngHead(bytes);
  if (head?.depth !== 8 || head.isInterlaced) return null;
  const { width, height, colourType } = head;
  if (colourType !== 2 && colourType !== 6) return null;
  return { width, height, channels: colourType === 2 ? 3 : 4 };
}

/**
 * Unpack a PNG row by row, without ever holding it.
 *
 * @param bytes - One that {@link lookAtPng} knows, and that was decoded whole before.
 * @param png - What it is like.
 * @yields Its rows from the top; each stands until the next but one was asked for.
 * @see PNG Specification, third edition, 9 (filtering)
 */
export async function* pngRows(bytes: Uint8Array, png: PlainPng): AsyncGenerator<Uint8Array, void> {
  const { width, height, channels } = png;
  const inflate = createInflate({ chunkSize: 1 << 19 });
  const packed = Readable.from(pixelChunks(bytes));
  packed.on('error', (cause) => inflate.destroy(cause)).pipe(inflate);
  const stride = channels * width;
  let [row, above] = [new Uint8Array(stride), new Uint8Array(stride)];
  let filled = -1;
  let filter = 0;
  let left = height;
  try {
    for await (const piece of inflate as AsyncIterable<Uint8Array>) {
      for (let at = 0; at < piece.length && left > 0;) {
        if (filled < 0) {
          filter = piece[at++]!;
          filled = 0;
          continue;
        }
        const taken = piece.subarray(at, at + stride - filled);
        row.set(taken, filled);
        at += taken.length;
        filled += taken.length;
        if (filled < stride) break;
        unfilters[filter]?.(row, above, channels);
        yield row;
        [row, above] = [above, row];
        filled = -1;
        left--;
      }
      if (left === 0) return;
    }
    throw new Error(`a PNG that lacks ${left} rows`);
  } finally {
    packed.destroy();
    inflate.destroy();
  }
}

function* pixelChunks(bytes: Uint8Array): Generator<Uint8Array> {
  for (const { type, data } of pngChunks(bytes)) if (type === 'IDAT') yield data;
}

// Sums are taken modulo 256, as storing them does. Left of the first pixel, and above the first row, is 0.
type Unfilter = (row: Uint8Array, above: Uint8Array, step: number) => void;

const unfilters: readonly Unfilter[] = [
  () => undefined,
  (row, _above, step) => {
    for (let i = step; i < row.length; i++) row[i] = row[i]! + row[i - step]!;
  },
  (row, above) => {
    for (let i = 0; i < row.length; i++) row[i] = row[i]! + above[i]!;
  },
  (row, above, step) => {
    for (let i = 0; i < step; i++) row[i] = row[i]! + (above[i]! >> 1);
    for (let i = step; i < row.length; i++) {
      row[i] = row[i]! + ((row[i - step]! + above[i]!) >> 1);
    }
  },
  (row, above, step) => {
    for (let i = 0; i < step; i++) row[i] = row[i]! + above[i]!;
    for (let i = step; i < row.length; i++) {
      const left = row[i - step]!;
      const upper = above[i]!;
      const corner = above[i - step]!;
      const [p, q] = [Math.abs(upper - corner), Math.abs(left - corner)];
      const r = Math.abs(left + upper - 2 * corner);
      row[i] = row[i]! + (p <= q && p <= r ? left : q <= r ? upper : corner);
    }
  },
];
