import { bounds } from '../../limits/limits.js';
import { mmPerInch } from '../../units/units.js';
import { BrokenHeader, type PictureHeader, soonDecoded } from './header.js';

/**
 * Read the head of a PNG, up to its first pixels.
 *
 * @param bytes - The file.
 * @returns What it says.
 * @throws BrokenHeader, or RangeError where it ends early.
 * @see PNG (Portable Network Graphics) Specification, third edition, 5 and 11
 */
export function readPngHeader(bytes: Buffer): PictureHeader {
  if (bytes.readUInt32BE(8) !== 13 || bytes.toString('latin1', 12, 16) !== 'IHDR') {
    throw new BrokenHeader('has no image header (IHDR)');
  }
  const width = bytes.readUInt32BE(16);
  const height = bytes.readUInt32BE(20);
  let dpi: PictureHeader['dpi'] = null;
  // Interlaced, it is decoded in one go.
  const isBounded = bytes.readUInt8(28) === 0 || width * height <= soonDecoded;
  let animated = false;
  let codes: PictureHeader['codes'] = null;
  for (let at = 33, chunks = 0; chunks < bounds.chunks; chunks++) {
    const length = bytes.readUInt32BE(at);
    const kind = bytes.toString('latin1', at + 4, at + 8);
    if (kind === 'IDAT') return { width, height, dpi, scans: 1, animated, isBounded, codes };
    // Unit 0 tells an aspect only.
    if (kind === 'pHYs' && length === 9 && bytes.readUInt8(at + 16) === 1) {
      const inch = mmPerInch / 1000;
      dpi = { x: bytes.readUInt32BE(at + 8) * inch, y: bytes.readUInt32BE(at + 12) * inch };
    }
    if (kind === 'cICP') {
      codes = { primaries: bytes.readUInt8(at + 8), transfer: bytes.readUInt8(at + 9) };
    }
    if (kind === 'acTL') animated = true;
    at += 12 + length;
  }
  throw new BrokenHeader('has too many blocks before its pixels');
}
