import type { Sharp } from 'sharp';
import { showPath } from '../errors/show-path.js';
import type { Warning } from '../errors/warning.js';
import { paleGrey } from '../page/page.js';
import type { PerAxis } from '../surface/measurement.js';
import type { Size } from '../units/parse-size.js';
import { type DecodedPicture, decodePixels, type HeadedFile } from './decode-pixels.js';
import { limitsOf } from './held-limits.js';
import { identifyFormat, type PictureFormat } from './identify-format.js';
import { judgeColours } from './judge-colours.js';
import { loadSharp } from './load-sharp.js';
import { readBytes } from './read-bytes.js';
import { readExif } from './read-exif.js';
import { readHeader } from './read-header.js';
import { countClear, type StoredPicture } from '../raster/stored-picture.js';
import { isPrinted, refusePrinted } from './refuse-printed.js';
import { stripJpeg } from './strip-jpeg.js';
import { unpackDrawing } from './unpack-drawing.js';
import { uprightDpi } from './upright-dpi.js';

/** A picture that goes on paper as it is. */
export interface PrintPicture {
  /** As given. */
  readonly path: string;
  /** A PNG of 8 bits, RGB or RGBA and not interlaced, or a JPEG, of it in sRGB, upright, that tells nothing but what is seen. */
  readonly bytes: Uint8Array;
  /** A PNG of its shape, pale where it is not transparent; null where it is a rectangle, or nobody asked. */
  readonly shape: Uint8Array | null;
  /** Columns and rows of the upright picture. */
  readonly pixels: Size<number>;
  /** Dots per inch of the upright picture as the file says, or null. */
  readonly dpi: PerAxis<number> | null;
  /** Whether the file says that its colours were made for a printer. */
  readonly isPrinted: boolean;
  /** What the user should know. */
  readonly warnings: readonly Warning[];
}

/** What pages want of a picture. */
export interface OpenPrintOptions {
  /** What is done to its colours, or null where they go on paper as they are. */
  readonly change: ChangeColours | null;
  /** Whether its shape is shown, too, flat and pale. */
  readonly blanks: boolean;
}

/** Changes colours in place: RGBRGB…, 0 to 1 as encoded in sRGB. */
export type ChangeColours = (colours: Float32Array) => void;

const iend = Buffer.from('0000000049454e44ae426082', 'hex');
// Of a look at all of a picture without holding it.
const glance = 64;
// Pixels.
const mostLookedThrough = 80e6;

/**
 * Read the file of a part that is to be printed: a picture, or a drawing, compressed or not.
 *
 * @param path - Of the file.
 * @returns Its bytes.
 * @throws TextureError when the file does not allow it.
 */
export async function readPrint(path: string): Promise<Buffer> {
  return unpackDrawing(path, await readBytes(path, 'print'));
}

/**
 * Open a picture that is to be printed as it is. It is decoded even where its own bytes go on paper,
 * so that half a picture is refused here rather than by whoever opens the page; its pixels are not held.
 *
 * @param path - Of the file, for messages alone.
 * @param bytes - The file: JPEG, PNG, WebP, TIFF, AVIF or GIF, told by its bytes.
 * @param options - What pages want of it.
 * @returns The picture.
 * @throws TextureError when the file does not allow it; its message names the file.
 */
export async function openPrint(
  path: string,
  bytes: Buffer,
  options: OpenPrintOptions,
): Promise<PrintPicture> {
  const { change, blanks } = options;
  const shown = showPath(path);
  const printed = isPrinted(bytes);
  if (change !== null && printed) throw refusePrinted(path);
  const format = identifyFormat(path, bytes);
  const limits = limitsOf('print');
  const header = readHeader(path, { format, bytes }, limits);
  const look = await decodePixels(shown, { bytes, header }, { ...limits, longest: glance });
  const exif = await readExif(look.exif);
  const shape = (await isRectangle(bytes, look)) ? 'rectangle' : 'outlined';
  // What is transparent stays so on paper: there is nothing to say of it.
  const told = look.warnings.filter(({ code }) => code !== 'transparency');
  const isPlain =
    told.length === 0 &&
    change === null &&
    isPlainKind(format, bytes, shape) &&
    isPlainly(look, shape);
  return {
    path,
    bytes: isPlain
      ? toPlain(format, bytes)
      : await (change === null
          ? encode(await upright(bytes), shape)
          : changeAll(shown, { bytes, header }, { change, shape })),
    shape: blanks && shape === 'outlined' ? await encodeShape(bytes) : null,
    pixels: { width: look.width, height: look.height },
    dpi: uprightDpi(header, exif, look.orientation),
    isPrinted: printed,
    warnings: [...told, ...judgeColours(shown, header, look)],
  };
}

type Shape = 'rectangle' | 'outlined';

async function changeAll(
  path: string,
  file: HeadedFile,
  { change, shape }: { readonly change: ChangeColours; readonly shape: Shape },
): Promise<Uint8Array> {
  const { stored } = await decodePixels(path, file, { ...limitsOf('print'), longest: Infinity });
  const { samples, width, height } = changeStored(stored, change);
  const sharp = await loadSharp();
  const raw = { width, height, channels: channelsOf(stored) };
  return encode(sharp(samples, { raw, limitInputPixels: false }), shape);
}

// Rounded to bytes once; bytes are changed where they are.
function changeStored(
  { samples, width, height }: StoredPicture,
  change: ChangeColours,
): StoredPicture & { readonly samples: Uint8Array } {
  const channels = samples.length / (width * height);
  const full = samples instanceof Uint8Array ? 255 : 65_535;
  const out = samples instanceof Uint8Array ? samples : new Uint8Array(samples.length);
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

// Whether a page can hold the file's own pixels: in sRGB, upright, with no more channels than are needed.
function isPlainly({ stored, space, orientation, profile }: DecodedPicture, shape: Shape): boolean {
  if (channelsOf(stored) !== (shape === 'outlined' ? 4 : 3)) return false;
  return space === 'srgb' && orientation === 1 && (profile === undefined || saysSrgb(profile));
}

function isPlainKind(format: PictureFormat, bytes: Buffer, shape: Shape): boolean {
  return format === 'jpeg' || (format === 'png' && isPlainPng(bytes, shape));
}

// PNG Specification, 11.2.1 and 11.2.5: 8 bits, RGB, or RGBA where that is needed, not interlaced, and whole to
// its last chunk, which decoders do without and pages do not.
function isPlainPng(bytes: Buffer, shape: Shape): boolean {
  const isBare = bytes[24] === 8 && bytes[28] === 0 && bytes.subarray(-12).equals(iend);
  return isBare && (shape === 'outlined' ? bytes[25] === 6 : bytes[25] === 2);
}

// By its name, in either of the two ways in which profiles are lettered.
function saysSrgb(profile: Buffer): boolean {
  return profile.includes('sRGB', 0, 'latin1') || profile.includes(Buffer.from('\0s\0R\0G\0B'));
}

function toPlain(format: PictureFormat, bytes: Buffer): Uint8Array {
  return format === 'jpeg' ? stripJpeg(bytes) : bytes;
}

// Opaque from edge to edge: by a look, and where that shows no hole by every pixel. A large one that may be is laid
// as if it were not, which looks the same.
async function isRectangle(
  bytes: Buffer,
  { stored, width, height }: DecodedPicture,
): Promise<boolean> {
  if (channelsOf(stored) === 3) return true;
  if (countClear(stored) > 0 || width * height > mostLookedThrough) return false;
  const alpha = (await upright(bytes)).extractChannel('alpha');
  return (await alpha.raw({ depth: 'uchar' }).toBuffer()).every((opacity) => opacity === 255);
}

async function upright(bytes: Buffer): Promise<Sharp> {
  const sharp = await loadSharp();
  // What decoding found fit.
  return sharp(bytes, { failOn: 'error', limitInputPixels: false }).autoOrient();
}

async function encode(picture: Sharp, shape: Shape): Promise<Uint8Array> {
  const opaque = shape === 'rectangle' ? picture.removeAlpha() : picture;
  return opaque.toColourspace('srgb').png({ compressionLevel: 6 }).toBuffer();
}

async function encodeShape(bytes: Buffer): Promise<Uint8Array> {
  const picture = (await upright(bytes)).pipelineColourspace('srgb').ensureAlpha();
  return picture
    .linear([0, 0, 0, 1], [paleGrey, paleGrey, paleGrey, 0])
    .toColourspace('srgb')
    .png({ compressionLevel: 6 })
    .toBuffer();
}
