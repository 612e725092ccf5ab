import type { Document } from './open-document.js';

// PNG Specification, third edition, 5.2 and 11.2.1: after eight bytes of signature, a header of 13 bytes.
const [start, headerEnd] = [8, 33];
// Their names as four letters.
const [pixels, transparency] = [0x49444154, 0x74524e53];
const [depth, colourType, interlace] = [24, 25, 28];

/**
 * Put a PNG of 8 bits, RGB and whole rows into a PDF as it is compressed: both know the same filters. The
 * PDF library would take it apart byte by byte, which takes longer than to decode it.
 *
 * @param document - To hold it.
 * @param bytes - A file.
 * @returns The image; null where it is of another kind, or no PNG.
 * @see ISO 32000-1:2008, 7.4.4.4 (predictors of PNG), 8.9.5 (images)
 */
export function embedPng(document: Document, bytes: Uint8Array): PDFKit.Mixins.ImageSrc | null {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (bytes.length < headerEnd || view.getUint32(0) !== 0x89504e47) return null;
  if (bytes[depth] !== 8 || bytes[colourType] !== 2 || bytes[interlace] !== 0) return null;
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
    ColorSpace: 'DeviceRGB',
    Filter: 'FlateDecode',
    DecodeParms: { Predictor: 15, Colors: 3, BitsPerComponent: 8, Columns: width },
  });
  for (const part of parts) image.write(Buffer.from(part.buffer, part.byteOffset, part.length));
  image.end(Buffer.alloc(0));
  // What the library takes for an image that it opened.
  const opened = { width, height, label: `Png${image.id}`, obj: image };
  return opened as unknown as PDFKit.Mixins.ImageSrc;
}
