import { bounds } from '../../limits/limits.js';
import { BrokenHeader, type PictureHeader } from './header.js';

// Boxes that hold boxes on the way to the pictures' sizes, and the bytes that stand before those.
const containers = new Map([
  ['meta', 4],
  ['iprp', 0],
  ['ipco', 0],
]);

interface Walk {
  readonly bytes: Buffer;
  boxes: number;
  width: number;
  height: number;
  codes: PictureHeader['codes'];
}

function lengthOf(bytes: Buffer, at: number, end: number): number {
  const short = bytes.readUInt32BE(at);
  if (short === 0) return end - at;
  return short === 1 ? Number(bytes.readBigUInt64BE(at + 8)) : short;
}

function walkBoxes(walk: Walk, from: number, end: number): void {
  const { bytes } = walk;
  for (let at = from; at + 8 <= end;) {
    const length = lengthOf(bytes, at, end);
    if (length < 8 || at + length > end) throw new BrokenHeader('breaks off inside its header');
    if (++walk.boxes > bounds.boxes) throw new BrokenHeader('has too many boxes in its header');
    const kind = bytes.toString('latin1', at + 4, at + 8);
    const skip = containers.get(kind);
    // Three levels at most: a container is gone into once, and never into its like.
    if (skip !== undefined) walkBoxes(walk, at + 8 + skip, at + length);
    if (kind === 'ispe') {
      walk.width = Math.max(walk.width, bytes.readUInt32BE(at + 12));
      walk.height = Math.max(walk.height, bytes.readUInt32BE(at + 16));
    }
    if (kind === 'colr' && bytes.toString('latin1', at + 8, at + 12) === 'nclx') {
      walk.codes ??= {
        primaries: bytes.readUInt16BE(at + 12),
        transfer: bytes.readUInt16BE(at + 14),
      };
    }
    if (kind === 'meta') return;
    at += length;
  }
}

/**
 * Read the head of an AVIF: the largest picture it speaks of.
 *
 * @param bytes - The file.
 * @returns What it says.
 * @throws BrokenHeader, or RangeError where it ends early.
 * @see ISO/IEC 23008-12, 6.5.3: image spatial extents; ISO/IEC 14496-12, 12.1.5: colour information
 */
export function readAvifHeader(bytes: Buffer): PictureHeader {
  const walk: Walk = { bytes, boxes: 0, width: 0, height: 0, codes: null };
  walkBoxes(walk, 0, bytes.length);
  if (walk.width === 0) throw new BrokenHeader('holds no picture');
  const { width, height, codes } = walk;
  return { width, height, dpi: null, scans: 1, animated: false, isBounded: false, codes };
}
