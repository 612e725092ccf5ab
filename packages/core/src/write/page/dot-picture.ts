import type { Sharp } from 'sharp';
import type { PerAxis } from '../../surface/measurement.js';
import type { Size } from '../../units/parse-size.js';
import { loadSharp } from '../load-sharp.js';
import { lookAtPng } from '../png/png-rows.js';

/** Some of a picture's pixels. */
export interface PixelWindow {
  /** First column. */
  readonly left: number;
  /** First row. */
  readonly top: number;
  /** Columns, 1 or more. */
  readonly width: number;
  /** Rows, 1 or more. */
  readonly height: number;
}

/** A picture of a drawing, no finer than a page shows it. */
export interface DotPicture {
  /** Its columns and rows, as it is held. */
  readonly pixels: Size<number>;
  /** Bytes of it that are held from here on. */
  readonly held: number;
  /** Some of it, as a PNG that is not compressed; whether the next that is asked for is from below or beside it. */
  readonly cut: (window: PixelWindow, turned: boolean) => Promise<Buffer>;
}

interface Held extends PixelWindow {
  readonly data: Buffer;
  readonly channels: 3 | 4;
}

// A picture hardly finer than the page is resampled but once, as it is laid.
const asFine = 0.75;

/**
 * Open a picture that a drawing shows. One that is finer than the page is brought to its dots in linear
 * light first, or mortar goes dark.
 *
 * @param bytes - A PNG or JPEG in sRGB.
 * @param pixels - Its columns and rows.
 * @param options - How.
 * @param options.finest - Dots of the page to one of its pixels, where the page shows it.
 * @param options.room - Bytes that may be held: beyond that it stays compressed, and is unpacked some rows at a time.
 * @returns What cuts windows out of it.
 */
export async function openDotPicture(
  bytes: Uint8Array,
  pixels: Size<number>,
  options: { readonly finest: PerAxis<number>; readonly room: number },
): Promise<DotPicture> {
  const { finest, room } = options;
  const sharp = await loadSharp();
  const size = {
    width: reduced(pixels.width, finest.x),
    height: reduced(pixels.height, finest.y),
  };
  const isSame = size.width === pixels.width && size.height === pixels.height;
  const open = (): Sharp => sharp(bytes, { limitInputPixels: false, sequentialRead: true });
  const whole = isSame
    ? open()
    : open()
        .pipelineColourspace('scrgb')
        .resize({ ...size, fit: 'fill' });
  const bytesHeld = (lookAtPng(bytes)?.channels ?? 3) * size.width * size.height;
  if (bytesHeld <= room) {
    const held = await hold(whole, { left: 0, top: 0, ...size });
    return { pixels: size, held: bytesHeld, cut: (window) => cutFrom(held, window) };
  }
  const packed = isSame ? bytes : await whole.toColourspace('srgb').png().toBuffer();
  return { pixels: size, held: isSame ? 0 : packed.length, cut: cutFromRows(packed, size) };
}

function reduced(length: number, finest: number): number {
  return finest < asFine ? Math.max(1, Math.ceil(length * finest)) : length;
}

async function hold(picture: Sharp, window: PixelWindow): Promise<Held> {
  const { data, info } = await picture
    .toColourspace('srgb')
    .raw({ depth: 'uchar' })
    .toBuffer({ resolveWithObject: true });
  return { ...window, data, channels: info.channels === 4 ? 4 : 3 };
}

async function cutFrom(held: Held, window: PixelWindow): Promise<Buffer> {
  const { data, width, height, channels } = held;
  const sharp = await loadSharp();
  return sharp(data, { raw: { width, height, channels }, limitInputPixels: false })
    .extract({ ...window, left: window.left - held.left, top: window.top - held.top })
    .png({ compressionLevel: 0 })
    .toBuffer();
}

// Who asks goes along rows of the page: what is unpacked is from side to side of the picture, or, where that
// lies on its side, from top to foot.
function cutFromRows(packed: Uint8Array, size: Size<number>): DotPicture['cut'] {
  let held: Held | null = null;
  return async (window, turned) => {
    if (held === null || !holds(held, window)) {
      held = null;
      const stretch = turned
        ? { ...window, top: 0, height: size.height }
        : { ...window, left: 0, width: size.width };
      const sharp = await loadSharp();
      const picture = sharp(packed, { limitInputPixels: false, sequentialRead: true });
      held = await hold(picture.extract(stretch), stretch);
    }
    return cutFrom(held, window);
  };
}

function holds(held: PixelWindow, { left, top, width, height }: PixelWindow): boolean {
  const across = left >= held.left && left + width <= held.left + held.width;
  return across && top >= held.top && top + height <= held.top + held.height;
}
