import type { PictureHeader } from './header.js';

/**
 * Read the head of a GIF.
 *
 * @param bytes - The file.
 * @returns What it says.
 * @throws RangeError where it ends early.
 * @see GIF89a specification, 18: logical screen descriptor
 */
export function readGifHeader(bytes: Buffer): PictureHeader {
  const [width, height] = [bytes.readUInt16LE(6), bytes.readUInt16LE(8)];
  return { width, height, dpi: null, scans: 1, animated: false, isBounded: false, codes: null };
}
