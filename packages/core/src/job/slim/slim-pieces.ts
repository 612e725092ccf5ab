import type { PicturePlan } from '../../drawing/slim/plan-picture.js';
import type { PerAxis, PlannedSpan } from '../../drawing/slim/plan-spans.js';
import type { Samples } from '../../raster/average-samples.js';
import type { LookedAtPicture } from '../../read/look-at-picture.js';
import { decodePart } from './slim-bands.js';
import type { Stretch, Window } from './slim-spots.js';

/** A part of a picture. */
export interface PicturePiece extends Window {
  /** Its pixels, 8 bits a sample. */
  readonly old: Samples;
}

/** What is wanted of a picture. */
export interface TakePiecesOptions {
  /** The plan that keeps every pixel of what shows. */
  readonly plain: PicturePlan;
  /** Pixels to a dot of the print, along rows and columns. */
  readonly perDot: PerAxis;
  /** Pixels around which there is to be a piece, too. */
  readonly also: readonly PerAxis[];
}

const across = 3;
// Blocks of JPEG, and pixels that are halved together, stay whole.
const step = 64;
const most = 512;

/**
 * Take pieces of one size spread over what shows of a picture, nine and those that are asked for, or all of
 * it where it is small.
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
): Promise<PicturePiece[]> {
  const { plain, perDot, also } = options;
  const wanted = step * Math.round((4 * Math.max(3, perDot.x, perDot.y)) / 3);
  const size = Math.min(most, wanted);
  const [all, below] = [shownOn(plain.x, look.width), shownOn(plain.y, look.height)];
  const columns = spread(all, size);
  const windows = spread(below, size).map((y) => ({ y, columns }));
  for (const spot of also) {
    const [x, y] = [around(all, spot.x, size), around(below, spot.y, size)];
    windows.push({ y, columns: [x] });
  }
  const pieces: PicturePiece[] = [];
  for (const { y, columns: here } of windows) {
    const strip = await decodePart({ bytes, grey: look.channels <= 2 }, { x: all, y });
    for (const x of here) {
      pieces.push({ x, y, old: cutColumns(strip, { ...x, from: x.from - all.from }) });
    }
  }
  return pieces;
}

function shownOn({ start, count }: PlannedSpan, length: number): Stretch {
  return { from: start, length: Math.min(length, start + count) - start };
}

function isSmall({ length }: Stretch, size: number): boolean {
  return length < across * size;
}

function spread(all: Stretch, size: number): Stretch[] {
  if (isSmall(all, size)) return [all];
  const between = (all.length - size) / (across - 1);
  return Array.from({ length: across }, (_, i) => {
    const from = all.from + Math.floor((i * between) / step) * step;
    return { from, length: size };
  });
}

function around(all: Stretch, middle: number, size: number): Stretch {
  if (isSmall(all, size)) return all;
  const wanted = Math.min(all.length - size, Math.max(0, middle - size / 2 - all.from));
  return { from: all.from + Math.floor(wanted / step) * step, length: size };
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
 * @param pieces - Of it.
 * @returns No where it is drawn, or transparent anywhere.
 */
export function isPhotograph(pieces: readonly PicturePiece[]): boolean {
  let [alike, all] = [0, 0];
  for (const {
    old: { channels, data },
  } of pieces) {
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
