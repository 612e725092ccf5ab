import { deflateSync } from 'node:zlib';
import type { Sharp } from 'sharp';
import { TextureError } from '../errors/texture-error.js';
import { loadSharp } from './load-sharp.js';
import { toChunk } from './png/chunk.js';

/** What stands in a file beside its pixels. */
interface FileHead {
  /** The colour profile that they are in, or null. */
  readonly profile: Uint8Array | null;
  /** What the file says of itself at its head, in ASCII; nothing unless told. */
  readonly note?: string;
}

/** Pixels to make a file of. */
export interface EncodedSamples extends FileHead {
  /** Columns. */
  readonly width: number;
  /** Rows. */
  readonly height: number;
  /** Samples a pixel: 1 to 4. */
  readonly channels: number;
  /** Row by row from the top left; two bytes a sample where `bits` is 16. */
  readonly data: Uint8Array;
  /** Bits a sample: 8 or 16. */
  readonly bits: number;
}

/** Part of a picture of 8 bits a sample to make a file of. */
export interface EncodedWindow extends FileHead {
  /** Its file. */
  readonly bytes: Buffer;
  /** Which part: whole pixels inside it. */
  readonly window: {
    readonly left: number;
    readonly top: number;
    readonly width: number;
    readonly height: number;
  };
  /** Whether it is grey, with or without alpha. */
  readonly grey: boolean;
}

/** What the file is to be. */
export interface EncodeSamplesOptions {
  /** Without loss, or with little. */
  readonly format: 'png' | 'jpeg';
  /** Of a JPEG, 1 to 100. */
  readonly quality?: number;
  /** Whether a JPEG holds colour at half the fineness each way; not unless told. */
  readonly halved?: boolean;
  /** Whether a JPEG chooses its numbers for fewer bytes, so that one made of the same numbers is made anew; not unless told. */
  readonly chosen?: boolean;
  /** Whether a JPEG is written row by row, a thirtieth larger or more, and not held whole at six bytes a pixel; not unless told. */
  readonly streamed?: boolean;
  /** Whether it is only made to see how large it comes out, and what it shows; not unless told. */
  readonly quick?: boolean;
}

/**
 * Make a file of pixels as they are: their profile goes with them, and nothing else.
 *
 * @param samples - The pixels.
 * @param options - What it is to be.
 * @returns The file.
 */
export async function encodeSamples(
  samples: EncodedSamples,
  options: EncodeSamplesOptions,
): Promise<Buffer> {
  const { width, height, channels, data, bits } = samples;
  const sharp = await loadSharp();
  const raw = { width, height, channels: channels as 1 | 2 | 3 | 4 };
  const words = bits === 16 ? new Uint16Array(data.slice().buffer) : data;
  const grey = channels <= 2;
  const picture = sharp(words, { raw, limitInputPixels: false });
  return encode(picture.toColourspace(spaceOf(grey, bits === 16)), { ...options, ...samples });
}

/**
 * Make a file of part of another's pixels, which are never held.
 *
 * @param part - Which, of which.
 * @param options - What it is to be.
 * @returns The file.
 * @throws TextureError `damaged-picture`.
 */
export async function encodeWindow(
  part: EncodedWindow,
  options: EncodeSamplesOptions,
): Promise<Buffer> {
  const { bytes, window, grey } = part;
  const sharp = await loadSharp();
  const picture = sharp(bytes, { ignoreIcc: true, sequentialRead: true, limitInputPixels: false })
    .extract(window)
    .toColourspace(spaceOf(grey, false));
  const { width, height } = window;
  try {
    return await encode(picture, { ...options, ...part, width, height });
  } catch (cause) {
    throw new TextureError('damaged-picture', 'it is damaged', { cause });
  }
}

async function encode(
  picture: Sharp,
  options: EncodeSamplesOptions & FileHead & { readonly width: number; readonly height: number },
): Promise<Buffer> {
  const { width, height, profile, note = '' } = options;
  const { format, quality = 92, halved = false, chosen = false, quick = false } = options;
  const optimiseCoding = options.streamed !== true;
  const chromaSubsampling = halved ? '4:2:0' : '4:4:4';
  if (format === 'png') {
    const compressionLevel = quick ? 4 : 9;
    const file = await picture.png({ compressionLevel, adaptiveFiltering: true }).toBuffer();
    return withHead(file, profile, note);
  }
  // In several scans it is a fifteenth smaller, and takes all of the picture twice over in memory.
  const progressive = !quick && width * height < 4e6;
  const file = await picture
    .jpeg({
      ...{ quality, chromaSubsampling, progressive, optimiseScans: progressive, optimiseCoding },
      ...{ trellisQuantisation: chosen, overshootDeringing: chosen },
    })
    .toBuffer();
  const head = [...noteSegment(note), ...profileSegments(profile)];
  return Buffer.concat([file.subarray(0, 2), ...head, file.subarray(2)]);
}

function spaceOf(grey: boolean, deep: boolean): string {
  if (grey) return deep ? 'grey16' : 'b-w';
  return deep ? 'rgb16' : 'srgb';
}

// The encoder states a print size of its own making, which is left out.
function withHead(file: Buffer, profile: Uint8Array | null, note: string): Buffer {
  const pieces: Uint8Array[] = [file.subarray(0, 8)];
  for (let at = 8; at < file.length;) {
    const end = at + 12 + file.readUInt32BE(at);
    const kind = file.toString('latin1', at + 4, at + 8);
    if (kind !== 'pHYs') pieces.push(file.subarray(at, end));
    if (kind === 'IHDR' && note !== '') {
      pieces.push(toChunk('tEXt', Buffer.from(`Comment\0${note}`, 'latin1')));
    }
    if (kind === 'IHDR' && profile !== null) {
      const name = Buffer.from('profile\0\0', 'latin1');
      pieces.push(toChunk('iCCP', Buffer.concat([name, deflateSync(profile)])));
    }
    at = end;
  }
  return Buffer.concat(pieces);
}

// ITU-T T.81, B.2.4.5: a comment.
function noteSegment(note: string): Buffer[] {
  if (note === '') return [];
  const text = Buffer.from(note, 'latin1');
  const head = Buffer.from('fffe0000', 'hex');
  head.writeUInt16BE(text.length + 2, 2);
  return [head, text];
}

// ICC.1:2010, B.4: a profile may be longer than a segment.
function profileSegments(profile: Uint8Array | null): Buffer[] {
  if (profile === null) return [];
  const most = 65_519;
  const count = Math.ceil(profile.length / most);
  return Array.from({ length: count }, (_, i) => {
    const part = profile.subarray(i * most, (i + 1) * most);
    const head = Buffer.from('ffe20000', 'hex');
    head.writeUInt16BE(part.length + 16, 2);
    const mark = Buffer.from(`ICC_PROFILE\0`, 'latin1');
    return Buffer.concat([head, mark, Uint8Array.of(i + 1, count), part]);
  });
}
