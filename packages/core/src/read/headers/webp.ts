import { BrokenHeader, type PictureHeader, soonDecoded } from './header.js';

interface Size {
  readonly width: number;
  readonly height: number;
}

function readLossy(bytes: Buffer, at: number): Size {
  return {
    width: bytes.readUInt16LE(at + 6) & 0x3fff,
    height: bytes.readUInt16LE(at + 8) & 0x3fff,
  };
}

function readLossless(bytes: Buffer, at: number): Size {
  const bits = bytes.readUInt32LE(at + 1);
  return { width: (bits & 0x3fff) + 1, height: ((bits >>> 14) & 0x3fff) + 1 };
}

function readCanvas(bytes: Buffer, at: number): Size {
  return { width: bytes.readUIntLE(at + 4, 3) + 1, height: bytes.readUIntLE(at + 7, 3) + 1 };
}

const readers = new Map([
  ['VP8 ', readLossy],
  ['VP8L', readLossless],
  ['VP8X', readCanvas],
]);

/**
 * Read the head of a WebP: its canvas, or the picture itself where that is larger.
 *
 * @param bytes - The file.
 * @returns What it says.
 * @throws BrokenHeader, or RangeError where it ends early.
 * @see WebP container specification; RFC 6386, 9.1; WebP lossless bitstream specification, 3
 */
export function readWebpHeader(bytes: Buffer): PictureHeader {
  let width = 0;
  let height = 0;
  for (let at = 12; at + 8 <= bytes.length;) {
    const kind = bytes.toString('latin1', at, at + 4);
    const size = readers.get(kind)?.(bytes, at + 8);
    width = Math.max(width, size?.width ?? 0);
    height = Math.max(height, size?.height ?? 0);
    if (kind === 'VP8 ' || kind === 'VP8L') break;
    const length = bytes.readUInt32LE(at + 4);
    at += 8 + length + (length & 1);
  }
  if (width === 0) throw new BrokenHeader('holds no picture');
  const isBounded = width * height <= soonDecoded;
  return { width, height, dpi: null, scans: 1, animated: false, isBounded, codes: null };
}
