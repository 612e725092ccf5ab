import type { PicturePlan } from '../drawing/slim/plan-picture.js';
import { endOf, type PerAxis, type PlannedSpan } from '../drawing/slim/plan-spans.js';
import type { Samples } from '../raster/average-samples.js';
import { decodeWindow } from '../read/decode-window.js';
import type { LookedAtPicture } from '../read/look-at-picture.js';

/** Pixels along an axis of a picture. */
export interface Stretch {
  /** The first. */
  readonly from: number;
  /** How many. */
  readonly length: number;
}

/** Parts of a picture that stand for all that shows of it. */
export interface PicturePieces {
  /** Their columns, from left to right. */
  readonly columns: readonly Stretch[];
  /** Their rows, from the top. */
  readonly rows: readonly Stretch[];
  /** Each, row by row of pieces, 8 bits a sample. */
  readonly pieces: readonly Samples[];
}

/** What is wanted of a picture. */
export interface TakePiecesOptions {
  /** The plan that keeps every pixel of what shows. */
  readonly plain: PicturePlan;
  /** Pixels to a dot of the print, along rows and columns. */
  readonly perDot: PerAxis;
}

const across = 3;
// Blocks of JPEG, and pixels that are halved together, stay whole.
const step = 64;
const most = 512;

/**
 * Take nine pieces spread over what shows of a picture, or all of it where it is small.
 *
 * @param bytes - Its file.
 * @param look - What its head says.
 * @param options - What shows of it.
 * @returns Those, decoded.
 * @throws TextureError `damaged-picture`.
 */
export async function takePieces(
  bytes: Buffer,
  look: LookedAtPicture,
  options: TakePiecesOptions,
): Promise<PicturePieces> {
  const { plain, perDot } = options;
  const wanted = step * Math.round((4 * Math.max(3, perDot.x, perDot.y)) / 3);
  const size = Math.min(most, wanted);
  const [columns, rows] = [spread(plain.x, look.width, size), spread(plain.y, look.height, size)];
  const [left, right] = [columns[0]?.from ?? 0, endOf(plain.x)];
  const pieces: Samples[] = [];
  for (const { from, length } of rows) {
    const window = { left, top: from, width: Math.min(look.width, right) - left, height: length };
    const strip = await decodeWindow('it', bytes, { window, bits: 8, grey: look.channels <= 2 });
    for (const column of columns) {
      pieces.push(cutColumns(strip, { ...column, from: column.from - left }));
    }
  }
  return { columns, rows, pieces };
}

function spread({ start, count }: PlannedSpan, length: number, size: number): Stretch[] {
  const end = Math.min(length, start + count);
  const all = end - start;
  if (all < across * size) return [{ from: start, length: all }];
  const between = (all - size) / (across - 1);
  return Array.from({ length: across }, (_, i) => {
    const from = start + Math.floor((i * between) / step) * step;
    return { from, length: size };
  });
}

function cutColumns(
  { width, height, channels, data }: Samples,
  { from, length }: Stretch,
): Samples {
  const out = new Uint8Array(length * height * channels);
  for (let y = 0; y < height; y++) {
    const at = (y * width + from) * channels;
    out.set(data.subarray(at, at + length * channels), y * length * channels);
  }
  return { width: length, height, channels, data: out };
}

// In a photograph no two neighbours are quite alike; in a drawing most are.
const mostAlike = 0.1;

/**
 * Whether a picture is a photograph, which a JPEG holds best.
 *
 * @param picture - Pieces of it.
 * @returns No where it is drawn, or transparent anywhere.
 */
export function isPhotograph(picture: PicturePieces): boolean {
  let [alike, all] = [0, 0];
  for (const { channels, data } of picture.pieces) {
    if (channels === 2 || channels === 4) return false;
    for (let at = channels; at < data.length; at += channels) {
      let same = 0;
      while (same < channels && data[at + same] === data[at + same - channels]) same++;
      if (same === channels) alike++;
    }
    all += data.length / channels;
  }
  return alike < mostAlike * all;
}
