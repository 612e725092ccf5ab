import type { Sharp } from 'sharp';
import { loadSharp } from '../load-sharp.js';
import type { Document } from './open-document.js';

// PNG Specification, third edition, 5.2 and 11.2.1: after eight bytes of signature, a header of 13 bytes.
const png = Buffer.from('PNG');
const [start, headerEnd] = [8, 33];
// Their names as four letters.
const [pixels, transparency] = [0x49444154, 0x74524e53];
const [depth, colourType, interlace] = [24, 25, 28];

// Samples of a pixel, and what they are called.
const spaces = { 0: [1, 'DeviceGray'], 2: [3, 'DeviceRGB'] } as const;

/**
 * Put a PNG of 8 bits and whole rows into a PDF as it is compressed: both know the same filters. The PDF library
 * would take it apart byte by byte, which takes longer than to decode it, and of one with alpha 50 bytes a pixel:
 * that is split into its colours and its opacity, a row at a time.
 *
 * @param document - To hold it.
 * @param bytes - A file.
 * @returns The image; null where it is of another kind, or no PNG.
 * @see ISO 32000-1:2008, 7.4.4.4 (predictors of PNG), 8.9.5 (images), 11.6.5.3 (soft masks)
 */
export async function embedPng(
  document: Document,
  bytes: Uint8Array,
): Promise<PDFKit.Mixins.ImageSrc | null> {
  const isPng = bytes.length >= headerEnd && Buffer.from(bytes.subarray(1, 4)).equals(png);
  const isSplit = isPng && bytes[depth] === 8 && bytes[colourType] === 6;
  const image = isSplit ? await embedBoth(document, bytes) : isPng ? embed(document, bytes) : null;
  if (image === null) return null;
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  // What the library takes for an image that it opened.
  const size = { width: view.getUint32(16), height: view.getUint32(20) };
  const opened = { ...size, label: `Png${image.id}`, obj: image };
  return opened as unknown as PDFKit.Mixins.ImageSrc;
}

async function embedBoth(
  document: Document,
  bytes: Uint8Array,
): Promise<PDFKit.PDFKitReference | null> {
  const sharp = await loadSharp();
  const open = (): Sharp => sharp(bytes, { limitInputPixels: false });
  const alpha = await open().extractChannel('alpha').toColourspace('b-w').png(split).toBuffer();
  const mask = embed(document, alpha);
  const colours = await open().removeAlpha().png(split).toBuffer();
  return mask && embed(document, colours, { SMask: mask });
}

// Quickly: what was packed tightly stays small enough.
const split = { compressionLevel: 6, adaptiveFiltering: true };

function embed(
  document: Document,
  bytes: Uint8Array,
  more: Record<string, unknown> = {},
): PDFKit.PDFKitReference | null {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const type = bytes[colourType];
  if (bytes[depth] !== 8 || (type !== 0 && type !== 2) || bytes[interlace] !== 0) return null;
  const [colours, space] = spaces[type];
  const [width, height] = [view.getUint32(16), view.getUint32(20)];
  const parts: Uint8Array[] = [];
  for (let at = start; at + 12 <= bytes.length;) {
    const length = view.getUint32(at);
    const kind = view.getUint32(at + 4);
    // A colour that counts as clear is the library's to mask.
    if (kind === transparency) return null;
    if (kind === pixels) parts.push(bytes.subarray(at + 8, at + 8 + length));
    at += 12 + length;
  }
  const image = document.ref({
    Type: 'XObject',
    Subtype: 'Image',
    Width: width,
    Height: height,
    BitsPerComponent: 8,
    ColorSpace: space,
    Interpolate: false,
    Filter: 'FlateDecode',
    DecodeParms: { Predictor: 15, Colors: colours, BitsPerComponent: 8, Columns: width },
    ...more,
  });
  for (const part of parts) image.write(Buffer.from(part.buffer, part.byteOffset, part.length));
  image.end(Buffer.alloc(0));
  return image;
}
