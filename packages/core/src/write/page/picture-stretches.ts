import type { Box, PlacedPicture } from '../../page/page.js';
import type { Size } from '../../units/parse-size.js';
import { loadSharp } from '../load-sharp.js';
import { lookAtPng, pngRows } from '../png/png-rows.js';

/** Some of a picture, unpacked, in its pixels. */
export interface Stretch extends Box {
  /** Samples a pixel: 3 or 4. */
  readonly channels: number;
  /** RGBRGB… or RGBARGBA… in sRGB. */
  readonly samples: Uint8Array;
}

/** Unpacks what is asked for, stretch after stretch. */
export interface Stretches {
  /**
   * Unpack.
   *
   * @param wanted - Of the picture, in whole pixels; what of it lies outside is left out.
   * @returns That, or more.
   */
  (wanted: Box): Promise<Stretch>;
  /** Let go of what is held; whoever asks again begins anew. */
  readonly close: () => void;
}

// Bytes of a picture that are unpacked: the rest of it stays packed.
const mostHeld = 48e6;

/**
 * Ready a picture to be unpacked as a page shows it: from its top to its foot, or, where it lies on its side, from
 * its left to its right, or in a mirror the other way.
 *
 * @param bytes - A PNG or JPEG in sRGB.
 * @param pixels - Its columns and rows.
 * @param placed - How it lies.
 * @returns What unpacks it, once where it is a PNG that stands upright.
 */
export function openStretches(
  bytes: Uint8Array,
  pixels: Size<number>,
  placed: Pick<PlacedPicture, 'turned' | 'mirrored'>,
): Stretches {
  let held: Stretch | null = null;
  const png = openPng(bytes);
  const take = async (wanted: Box): Promise<Stretch> => {
    const box = clipped(wanted, pixels);
    if (held !== null && holds(held, box)) return held;
    const isRun = png !== null && !placed.turned;
    const before = isRun ? held : null;
    held = null;
    const channels = png?.channels ?? 3;
    const more = isRun ? box : longer(box, pixels, { ...placed, channels });
    held = await (png === null ? unpack(bytes, more) : png.take(more, before));
    return held;
  };
  const close = (): void => {
    held = null;
    png?.close();
  };
  return Object.assign(take, { close });
}

function clipped({ x, y, width, height }: Box, pixels: Size<number>): Box {
  const left = Math.min(pixels.width - 1, Math.max(0, x));
  const top = Math.min(pixels.height - 1, Math.max(0, y));
  return {
    x: left,
    y: top,
    width: Math.max(1, Math.min(pixels.width, x + width) - left),
    height: Math.max(1, Math.min(pixels.height, y + height) - top),
  };
}

// And of what will be asked for next as much as may be held.
function longer(
  box: Box,
  pixels: Size<number>,
  lie: Pick<PlacedPicture, 'turned' | 'mirrored'> & { readonly channels: number },
): Box {
  const { turned, mirrored, channels } = lie;
  const most = Math.floor(mostHeld / (channels * (turned ? box.height : box.width)));
  if (!turned) {
    return { ...box, height: Math.min(pixels.height - box.y, Math.max(box.height, most)) };
  }
  if (!mirrored) {
    return { ...box, width: Math.min(pixels.width - box.x, Math.max(box.width, most)) };
  }
  const right = box.x + box.width;
  const width = Math.min(right, Math.max(box.width, most));
  return { ...box, x: right - width, width };
}

function holds(held: Box, { x, y, width, height }: Box): boolean {
  const across = x >= held.x && x + width <= held.x + held.width;
  return across && y >= held.y && y + height <= held.y + held.height;
}

async function unpack(bytes: Uint8Array, box: Box): Promise<Stretch> {
  const sharp = await loadSharp();
  const { data, info } = await sharp(bytes, { limitInputPixels: false })
    .extract({ left: box.x, top: box.y, width: box.width, height: box.height })
    .toColourspace('srgb')
    .raw({ depth: 'uchar' })
    .toBuffer({ resolveWithObject: true });
  return { ...box, channels: info.channels, samples: data };
}

interface OpenPng {
  // Samples a pixel.
  readonly channels: number;
  /** From rows that are held already, and those that follow; from the top again where they went by. */
  readonly take: (box: Box, held: Stretch | null) => Promise<Stretch>;
  readonly close: () => void;
}

function openPng(bytes: Uint8Array): OpenPng | null {
  const png = lookAtPng(bytes);
  if (png === null) return null;
  let rows: AsyncGenerator<Uint8Array, void> | null = null;
  let next = 0;
  const close = (): void => {
    void rows?.return();
    rows = null;
  };
  const begin = (): AsyncGenerator<Uint8Array, void> => {
    close();
    next = 0;
    return pngRows(bytes, png);
  };
  const take = async (box: Box, held: Stretch | null): Promise<Stretch> => {
    const stride = png.channels * box.width;
    const samples = new Uint8Array(stride * box.height);
    const known = copyHeld(box, held, samples);
    if (rows === null || next > box.y + known) rows = begin();
    for (const end = box.y + box.height; next < end; next++) {
      const { value: row } = await rows.next();
      if (row === undefined) throw new Error('a PNG that has too few rows');
      const at = next - box.y;
      const from = png.channels * box.x;
      if (at >= known) samples.set(row.subarray(from, from + stride), at * stride);
    }
    return { ...box, channels: png.channels, samples };
  };
  return { channels: png.channels, take, close };
}

// How many rows from the top of the box are known.
function copyHeld(box: Box, held: Stretch | null, samples: Uint8Array): number {
  if (held?.x !== box.x || held.width !== box.width || box.y < held.y) return 0;
  const known = Math.min(box.height, held.y + held.height - box.y);
  if (known <= 0) return 0;
  const stride = held.channels * box.width;
  const from = (box.y - held.y) * stride;
  samples.set(held.samples.subarray(from, from + known * stride));
  return known;
}
