import type { Sharp } from 'sharp';
import { loadSharp } from '../load-sharp.js';
import { pngChunks, pngHead } from '../png/png-head.js';
import type { Document } from './open-document.js';

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
  const head = pngHead(bytes);
  if (head === null) return null;
  const { width, height } = head;
  const isSplit = head.depth === 8 && head.colourType === 6;
  const image = isSplit ? await embedBoth(document, bytes) : embed(document, bytes);
  if (image === null) return null;
  // What the library takes for an image that it opened.
  const opened = { width, height, label: `Png${image.id}`, obj: image };
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
  const head = pngHead(bytes);
  if (head?.depth !== 8 || head.isInterlaced) return null;
  const { width, height, colourType } = head;
  if (colourType !== 0 && colourType !== 2) return null;
  const [colours, space] = spaces[colourType];
  const parts: Uint8Array[] = [];
  for (const { type, data } of pngChunks(bytes)) {
    // A colour that counts as clear is the library's to mask.
    if (type === 'tRNS') return null;
    if (type === 'IDAT') parts.push(data);
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
