import type { Metadata } from 'sharp';
import { TextureError } from '../errors/texture-error.js';
import { identifyFormat, type PictureFormat } from './identify-format.js';
import { limitsOf } from './held-limits.js';
import { decodePixels } from './decode-pixels.js';
import { holdsPosition } from './holds-position.js';
import { readHeader } from './read-header.js';
import { readGamma } from './headers/png-gamma.js';
import { loadSharp } from './load-sharp.js';
import { isPrinted } from './refuse-printed.js';

/** A picture inside a drawing, or linked from it, before its pixels are looked at. */
export interface LookedAtPicture {
  /** By its bytes. */
  readonly format: PictureFormat;
  /** Columns. */
  readonly width: number;
  /** Rows. */
  readonly height: number;
  /** Samples a pixel: 1 to 4. */
  readonly channels: number;
  /** Bits a sample: 8 or 16. */
  readonly bits: number;
  /** Its colour profile, or null. */
  readonly profile: Uint8Array | null;
  /** Whether it says where it was taken. */
  readonly holdsPosition: boolean;
  /** Dots per inch of the print that it was made smaller for before, or null. */
  readonly madeFor: number | null;
  /** Whether its colours were made for a printer. */
  readonly isPrinted: boolean;
  /** Why its pixels are better left as they are, to follow "because it"; or null. */
  readonly left: string | null;
}

const glance = 64;

/**
 * Look at a picture's head: how large it is, and whether programs agree on what it shows.
 *
 * @param name - For messages alone.
 * @param bytes - The file.
 * @returns What it says.
 * @throws TextureError where it is no picture, damaged, or over the limits of a photo.
 */
export async function lookAtPicture(name: string, bytes: Buffer): Promise<LookedAtPicture> {
  const format = identifyFormat(name, bytes);
  const header = readHeader(name, { format, bytes }, limitsOf('photo'));
  // It is decoded piece by piece later on, by a decoder that cannot be stopped.
  if (!header.isBounded && (format === 'png' || format === 'jpeg')) {
    await decodePixels(name, { bytes, header }, { ...limitsOf('photo'), longest: glance });
  }
  const metadata = await metadataOf(name, bytes);
  const animated = header.animated || (metadata.pages ?? 1) > 1;
  return {
    format,
    width: header.width,
    height: header.height,
    channels: metadata.channels,
    bits: metadata.depth === 'ushort' ? 16 : 8,
    profile: metadata.icc ?? null,
    holdsPosition: holdsPosition(bytes, metadata.exif),
    madeFor: madeFor(bytes),
    isPrinted: isPrinted(bytes),
    left: animated ? 'moves' : whyLeft(format, metadata, bytes),
  };
}

// As it stands at the head of what slim writes.
function madeFor(bytes: Buffer): number | null {
  const [, dpi] = /gaugerod: for prints at (\d+) dpi/.exec(bytes.toString('latin1', 0, 128)) ?? [];
  return dpi === undefined ? null : Number(dpi);
}

async function metadataOf(name: string, bytes: Buffer): Promise<Metadata> {
  const sharp = await loadSharp();
  sharp.cache(false);
  try {
    return await sharp(bytes, { limitInputPixels: limitsOf('photo').pixels }).metadata();
  } catch (cause) {
    throw new TextureError('damaged-picture', `${name} is damaged`, { cause });
  }
}

// Where programs show different things, a new picture could agree with one of them only.
function whyLeft(format: PictureFormat, metadata: Metadata, bytes: Buffer): string | null {
  const { orientation = 1, space, depth } = metadata;
  if (format !== 'png' && format !== 'jpeg') return 'is neither PNG nor JPEG';
  if (orientation > 1) return 'is stored on its side';
  if (!['srgb', 'rgb', 'b-w', 'rgb16', 'grey16'].includes(space)) return `is stored as ${space}`;
  if (depth !== 'uchar' && depth !== 'ushort') return `holds samples of kind ${depth}`;
  const gamma = format === 'png' ? readGamma(bytes) : null;
  return gamma === null ? null : `states a gamma of ${gamma}`;
}
