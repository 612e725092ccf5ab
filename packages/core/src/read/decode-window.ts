import { TextureError } from '../errors/texture-error.js';
import { limitsOf } from './held-limits.js';
import { loadSharp } from './load-sharp.js';

/** Whole pixels of a picture. */
interface PixelWindow {
  /** Columns left out before it. */
  readonly left: number;
  /** Rows left out above it. */
  readonly top: number;
  /** Columns. */
  readonly width: number;
  /** Rows. */
  readonly height: number;
}

/** What is wanted of a picture's pixels. */
export interface DecodeWindowOptions {
  /** Which. */
  readonly window: PixelWindow;
  /** Bits a sample: 8, or 16 where the picture holds them. */
  readonly bits: number;
  /** Whether it is grey, with or without alpha. */
  readonly grey: boolean;
}

/** Pixels of a picture, as they stand in its file: no profile applied. */
export interface DecodedWindow {
  /** Columns. */
  readonly width: number;
  /** Rows. */
  readonly height: number;
  /** Samples a pixel: 1 to 4. */
  readonly channels: number;
  /** Row by row from the top left; two bytes a sample where 16 bits were asked. */
  readonly data: Buffer;
}

/**
 * Decode part of a picture whose head was looked at.
 *
 * @param name - For messages alone.
 * @param bytes - The file.
 * @param options - Which part.
 * @returns Its pixels.
 * @throws TextureError `damaged-picture`.
 */
export async function decodeWindow(
  name: string,
  bytes: Buffer,
  options: DecodeWindowOptions,
): Promise<DecodedWindow> {
  const { window, bits, grey } = options;
  const sharp = await loadSharp();
  sharp.cache(false);
  const { pixels, seconds } = limitsOf('photo');
  const deep = bits === 16;
  const spaces = grey ? (['b-w', 'grey16'] as const) : (['srgb', 'rgb16'] as const);
  try {
    const { data, info } = await sharp(bytes, {
      ignoreIcc: true,
      sequentialRead: true,
      limitInputPixels: pixels,
    })
      .extract(window)
      .toColourspace(spaces[deep ? 1 : 0])
      .timeout({ seconds: Math.ceil(seconds) })
      .raw({ depth: deep ? 'ushort' : 'uchar' })
      .toBuffer({ resolveWithObject: true });
    return { width: info.width, height: info.height, channels: info.channels, data };
  } catch (cause) {
    throw new TextureError('damaged-picture', `${name} is damaged`, { cause });
  }
}
