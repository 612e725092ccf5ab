import type { Metadata, Sharp } from 'sharp';
import type { Size } from '../units/parse-size.js';
import type { StoredPicture } from '../raster/stored-picture.js';
import { loadSharp } from './load-sharp.js';
import type { PictureLimits } from './read-header.js';
import { reducedSize } from './reduced-size.js';

/** How much decoding may ask for, and how much of it is wanted. */
export interface DecodeLimits extends PictureLimits {
  /** Longer side that will do: where the picture's is twice that or more, it is made smaller. */
  readonly longest: number;
}

/** Pixels, and what the decoder says of them. */
export interface DecodedSamples {
  /** Upright, in sRGB. */
  readonly stored: StoredPicture;
  /** The picture before it was made smaller. */
  readonly whole: Size<number>;
  /** As stored: 1 to 8, or whatever else the file says. */
  readonly orientation: number | undefined;
  /** Pictures in the file. */
  readonly pages: number | undefined;
  /** How colours were stored. */
  readonly space: string;
  /** Embedded colour profile. */
  readonly icc: Buffer | undefined;
  /** Embedded EXIF block. */
  readonly exif: Buffer | undefined;
  /** What the decoder found odd, and passed over; or null. */
  readonly oddity: string | null;
}

/**
 * What keeps a picture from being decoded: `slow` past its time, `large` past the memory that one of its size needs,
 * `unstarted` where the system gives no process to decode it in.
 */
export type DecodeFaultKind = 'damaged' | 'unsupported' | 'slow' | 'large' | 'unstarted';

/** A picture could not be decoded; the message is the decoder's own, or for `unsupported` ours, to follow a name. */
export class DecodeFault extends Error {
  /** Why. */
  readonly kind: DecodeFaultKind;

  /**
   * Make one.
   *
   * @param kind - Why.
   * @param message - What was said.
   * @param cause - The error underneath.
   */
  constructor(kind: DecodeFaultKind, message: string, cause?: unknown) {
    super(message, { cause });
    this.kind = kind;
  }
}

// What decoders say where they fill in what is not there.
const losesPixels = /premature|truncated|corrupt JPEG data: (?!\d+ extraneous)/i;
const isSlow = /timeout/i;

type Strictness = 'warning' | 'error';

function linesOf(cause: unknown): string {
  return cause instanceof Error ? cause.message : String(cause);
}

async function decodeWith(
  open: () => Sharp,
  limits: DecodeLimits,
): Promise<Omit<DecodedSamples, 'oddity'>> {
  const metadata = await open().metadata();
  const deep = metadata.depth === 'ushort';
  if (!deep && metadata.depth !== 'uchar') {
    throw new DecodeFault('unsupported', `holds samples of kind ${metadata.depth}`);
  }
  const size = reducedSize(metadata.autoOrient, limits.longest);
  const isWhole = size.width === metadata.autoOrient.width;
  // Some decoders make a smaller picture in half the time of a whole one. Made so of encoded light, it
  // is to look at, not to be printed.
  const sized = isWhole
    ? open().autoOrient()
    : open()
        .autoOrient()
        .resize({ ...size, fit: 'fill', kernel: 'linear' });
  const { data, info } = await sized
    // It knows whole seconds.
    .timeout({ seconds: Math.ceil(limits.seconds) })
    .toColourspace(deep ? 'rgb16' : 'srgb')
    .raw({ depth: deep ? 'ushort' : 'uchar' })
    .toBuffer({ resolveWithObject: true });
  if (info.channels !== 3 && info.channels !== 4) {
    throw new DecodeFault('unsupported', `holds ${metadata.channels} channels`);
  }
  const whole = isWhole ? info : metadata.autoOrient;
  const { width, height } = info;
  const stored = { width, height, samples: samplesOf(data, deep) };
  return { stored, whole: { width: whole.width, height: whole.height }, ...said(metadata) };
}

function said({
  orientation,
  pages,
  space,
  icc,
  exif,
}: Metadata): Pick<DecodedSamples, 'orientation' | 'pages' | 'space' | 'icc' | 'exif'> {
  return { orientation, pages, space, icc, exif };
}

/**
 * Look at bytes as samples.
 *
 * @param data - Their bytes, in this machine's order.
 * @param deep - Whether they are of 16 bits.
 * @returns The same memory.
 */
export function samplesOf(data: Buffer, deep: boolean): StoredPicture['samples'] {
  return deep
    ? new Uint16Array(data.buffer, data.byteOffset, data.length / 2)
    : new Uint8Array(data.buffer, data.byteOffset, data.length);
}

/**
 * Decode a picture in this process. Whole pictures with harmless oddities pass at the second try; half pictures
 * pass at neither.
 *
 * @param bytes - The file.
 * @param limits - How much it may ask for, and how much of it is wanted.
 * @returns Its first frame, upright, in sRGB.
 * @throws DecodeFault `damaged`, `unsupported` or `slow`.
 */
export async function decodeSamples(bytes: Buffer, limits: DecodeLimits): Promise<DecodedSamples> {
  const sharp = await loadSharp();
  sharp.cache(false);
  const decode = (failOn: Strictness): Promise<Omit<DecodedSamples, 'oddity'>> =>
    decodeWith(() => sharp(bytes, { failOn, limitInputPixels: limits.pixels }), limits);
  try {
    return { ...(await decode('warning')), oddity: null };
  } catch (first) {
    if (first instanceof DecodeFault) throw first;
    const oddity = linesOf(first);
    if (losesPixels.test(oddity) || isSlow.test(oddity)) throw faultOf(first);
    try {
      return { ...(await decode('error')), oddity };
    } catch (cause) {
      throw faultOf(cause);
    }
  }
}

function faultOf(cause: unknown): DecodeFault {
  if (cause instanceof DecodeFault) return cause;
  const lines = linesOf(cause);
  return new DecodeFault(isSlow.test(lines) ? 'slow' : 'damaged', lines, cause);
}
