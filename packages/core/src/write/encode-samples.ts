import { deflateSync } from 'node:zlib';
import { loadSharp } from './load-sharp.js';
import { toChunk } from './png/chunk.js';

/** Pixels to make a file of. */
export interface EncodedSamples {
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
  /** The colour profile that they are in, or null. */
  readonly profile: Uint8Array | null;
  /** What the file says of itself at its head, in ASCII; nothing unless told. */
  readonly note?: string;
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
  const { width, height, channels, data, bits, profile, note = '' } = samples;
  const { format, quality = 92, halved = false, chosen = false, quick = false } = options;
  const chromaSubsampling = halved ? '4:2:0' : '4:4:4';
  const sharp = await loadSharp();
  const raw = { width, height, channels: channels as 1 | 2 | 3 | 4 };
  const words = bits === 16 ? new Uint16Array(data.slice().buffer) : data;
  const grey = channels <= 2;
  const picture = sharp(words, { raw, limitInputPixels: false }).toColourspace(
    spaceOf(grey, bits === 16),
  );
  if (format === 'png') {
    const compressionLevel = quick ? 4 : 9;
    const file = await picture.png({ compressionLevel, adaptiveFiltering: true }).toBuffer();
    return withHead(file, profile, note);
  }
  // In several scans it is a fifteenth smaller, and takes all of the picture twice over in memory.
  const progressive = !quick && width * height < 4e6;
  const file = await picture
    .jpeg({
      ...{ quality, chromaSubsampling, progressive, optimiseScans: progressive },
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
