import { showPath } from '../errors/show-path.js';
import type { Warning } from '../errors/warning.js';
import { paleGrey } from '../page/page.js';
import type { PerAxis } from '../surface/measurement.js';
import type { Size } from '../units/parse-size.js';
import { type DecodedPicture, decodePixels } from './decode-pixels.js';
import { identifyFormat, type PictureFormat } from './identify-format.js';
import { judgeColours } from './judge-colours.js';
import { loadSharp } from './load-sharp.js';
import { readBytes } from './read-bytes.js';
import { readExif } from './read-exif.js';
import { type PictureLimits, readHeader } from './read-header.js';
import type { StoredPicture } from './stored-picture.js';
import { stripJpeg } from './strip-jpeg.js';
import { unpackDrawing } from './unpack-drawing.js';
import { uprightDpi } from './upright-dpi.js';

/** A picture that goes on paper as it is. */
export interface PrintPicture {
  /** As given. */
  readonly path: string;
  /** A PNG or a JPEG of it in sRGB, upright, that tells nothing but what is seen. */
  readonly bytes: Uint8Array;
  /** A PNG of its shape, pale where it is not transparent, or null where it is a rectangle. */
  readonly shape: Uint8Array | null;
  /** Columns and rows of the upright picture. */
  readonly pixels: Size<number>;
  /** Dots per inch of the upright picture as the file says, or null. */
  readonly dpi: PerAxis<number> | null;
  /** What the user should know. */
  readonly warnings: readonly Warning[];
}

/** Changes colours in place: RGBRGB…, 0 to 1 as encoded in sRGB. */
export type ChangeColours = (colours: Float32Array) => void;

const iend = Buffer.from('0000000049454e44ae426082', 'hex');
// What is packed may be a drawing alone.
const mostUnpacked = 150e6;
const limits: PictureLimits = { megapixels: 268, megabytes: 512, seconds: 30 };

/**
 * Read the file of a part that is to be printed: a picture, or a drawing, compressed or not.
 *
 * @param path - Of the file.
 * @returns Its bytes.
 * @throws TextureError when the file does not allow it.
 */
export async function readPrint(path: string): Promise<Buffer> {
  const maxBytes = limits.megabytes * 1e6;
  return unpackDrawing(path, await readBytes(path, { maxBytes }), mostUnpacked);
}

/**
 * Open a picture that is to be printed as it is. It is decoded even where its own bytes go on paper,
 * so that half a picture is refused here rather than by whoever opens the page.
 *
 * @param path - Of the file, for messages alone.
 * @param bytes - The file: JPEG, PNG, WebP, TIFF, AVIF or GIF, told by its bytes.
 * @param change - What is done to its colours, or null where they go on paper as they are.
 * @returns The picture.
 * @throws TextureError when the file does not allow it; its message names the file.
 */
export async function openPrint(
  path: string,
  bytes: Buffer,
  change: ChangeColours | null,
): Promise<PrintPicture> {
  const shown = showPath(path);
  const format = identifyFormat(path, bytes);
  const header = readHeader(path, { format, bytes }, limits);
  const picture = await decodePixels(shown, bytes, { ...limits, longest: Infinity });
  const { orientation } = picture;
  const stored = change === null ? picture.stored : changeStored(picture.stored, change);
  const exif = await readExif(picture.exif);
  // What is transparent stays so on paper: there is nothing to say of it.
  const told = picture.warnings.filter(({ code }) => code !== 'transparency');
  return {
    path,
    bytes:
      change === null && isPlain(format, bytes, picture)
        ? toPlain(format, bytes)
        : await encode(stored),
    shape: isRectangle(stored) ? null : await encodeShape(stored),
    pixels: { width: stored.width, height: stored.height },
    dpi: uprightDpi(header, exif, orientation),
    warnings: [...told, ...judgeColours(shown, header, picture)],
  };
}

// Rounded to bytes once.
function changeStored(
  { samples, width, height }: StoredPicture,
  change: ChangeColours,
): StoredPicture {
  const channels = samples.length / (width * height);
  const full = samples instanceof Uint8Array ? 255 : 65_535;
  const out = new Uint8Array(samples.length);
  const row = new Float32Array(3 * width);
  for (let from = 0; from < samples.length; from += channels * width) {
    for (let x = 0, to = 0, at = from; x < width; x++, to += 3, at += channels) {
      for (let i = 0; i < 3; i++) row[to + i] = samples[at + i]! / full;
    }
    change(row);
    for (let x = 0, to = 0, at = from; x < width; x++, to += 3, at += channels) {
      for (let i = 0; i < 3; i++) out[at + i] = Math.round(255 * row[to + i]!);
      if (channels === 4) out[at + 3] = Math.round((255 * samples[at + 3]!) / full);
    }
  }
  return { samples: out, width, height };
}

function channelsOf({ samples, width, height }: StoredPicture): 3 | 4 {
  return samples.length === 3 * width * height ? 3 : 4;
}

// Whether a page can hold the file's own pixels: whole, in sRGB, upright, of a kind that pages know.
function isPlain(format: PictureFormat, bytes: Buffer, picture: DecodedPicture): boolean {
  const { stored, space, orientation, profile, warnings } = picture;
  const simple = space === 'srgb' && orientation === 1 && stored.samples instanceof Uint8Array;
  if (!simple || channelsOf(stored) !== 3 || warnings.length > 0) return false;
  if (profile !== undefined && !saysSrgb(profile)) return false;
  return format === 'jpeg' || (format === 'png' && isPlainPng(bytes));
}

// PNG Specification, 11.2.1 and 11.2.5: 8 bits, RGB, not interlaced, and whole to its last chunk,
// which decoders do without and pages do not.
function isPlainPng(bytes: Buffer): boolean {
  return bytes[24] === 8 && bytes[25] === 2 && bytes[28] === 0 && bytes.subarray(-12).equals(iend);
}

// By its name, in either of the two ways in which profiles are lettered.
function saysSrgb(profile: Buffer): boolean {
  return profile.includes('sRGB', 0, 'latin1') || profile.includes(Buffer.from('\0s\0R\0G\0B'));
}

function toPlain(format: PictureFormat, bytes: Buffer): Uint8Array {
  return format === 'jpeg' ? stripJpeg(bytes) : bytes;
}

// Opaque from edge to edge.
function isRectangle(stored: StoredPicture): boolean {
  if (channelsOf(stored) === 3) return true;
  const { samples } = stored;
  const opaque = samples instanceof Uint8Array ? 255 : 65_535;
  for (let i = 3; i < samples.length; i += 4) if (samples[i]! < opaque) return false;
  return true;
}

async function encode(stored: StoredPicture): Promise<Uint8Array> {
  const { samples, width, height } = stored;
  const sharp = await loadSharp();
  const raw = { width, height, channels: channelsOf(stored) };
  const picture = sharp(samples, { raw, limitInputPixels: false });
  const opaque = channelsOf(stored) === 4 && isRectangle(stored) ? picture.removeAlpha() : picture;
  return opaque.toColourspace('srgb').png({ compressionLevel: 6 }).toBuffer();
}

async function encodeShape({ samples, width, height }: StoredPicture): Promise<Uint8Array> {
  const sharp = await loadSharp();
  const shift = samples instanceof Uint8Array ? 0 : 8;
  const shape = Buffer.alloc(2 * width * height);
  for (let i = 0, from = 3; i < shape.length; i += 2, from += 4) {
    shape[i] = paleGrey;
    shape[i + 1] = samples[from]! >> shift;
  }
  return sharp(shape, { raw: { width, height, channels: 2 }, limitInputPixels: false })
    .png({ compressionLevel: 6 })
    .toBuffer();
}
