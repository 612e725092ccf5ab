import { BrokenHeader, type PictureHeader } from './header.js';

// Start of frame: C0 to CF without the tables DHT (C4), JPG (C8) and DAC (CC).
function isFrame(marker: number): boolean {
  return marker >= 0xc0 && marker <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(marker);
}

// Markers that stand alone: TEM, RST0 to RST7 and SOI.
function standsAlone(marker: number): boolean {
  return marker === 0x01 || (marker >= 0xd0 && marker <= 0xd8);
}

// The next marker's place at or after `at`, past fill bytes, stuffed zeros and restarts.
function nextMarker(bytes: Buffer, at: number): number {
  let place = bytes.indexOf(0xff, at);
  while (place !== -1 && place + 1 < bytes.length) {
    const marker = bytes[place + 1]!;
    if (marker !== 0 && marker !== 0xff && !standsAlone(marker)) return place;
    place = bytes.indexOf(0xff, place + (marker === 0xff ? 1 : 2));
  }
  return -1;
}

function readJfif(bytes: Buffer, at: number): PictureHeader['dpi'] {
  if (bytes.toString('latin1', at + 4, at + 9) !== 'JFIF\0') return null;
  // 1 dots per inch, 2 dots per centimetre; 0 tells an aspect only.
  const scale = new Map([
    [1, 1],
    [2, 2.54],
  ]).get(bytes.readUInt8(at + 11));
  if (scale === undefined) return null;
  return { x: bytes.readUInt16BE(at + 12) * scale, y: bytes.readUInt16BE(at + 14) * scale };
}

// Pixels times passes: a progressive photo of 24 million has ten.
const soonScanned = 300e6;

/**
 * Walk the segments of a JPEG to its end, counting scans: a progressive file of half a megabyte
 * may ask for thousands of passes over its picture.
 *
 * @param bytes - The file.
 * @returns What it says.
 * @throws BrokenHeader, or RangeError where it ends early.
 * @see ITU-T T.81, annex B; JFIF 1.02 (ITU-T T.871)
 */
export function readJpegHeader(bytes: Buffer): PictureHeader {
  let frame: { width: number; height: number } | undefined;
  let dpi: PictureHeader['dpi'] = null;
  let scans = 0;
  let isArithmetic = false;
  for (let at = nextMarker(bytes, 2); at !== -1;) {
    const marker = bytes.readUInt8(at + 1);
    if (marker === 0xd9) break;
    if (isFrame(marker)) {
      if (frame !== undefined) throw new BrokenHeader('holds two frames in one picture');
      // SOF9 and those after it: arithmetic coding (ITU-T T.81, table B.1).
      isArithmetic = marker > 0xc8;
      frame = { height: bytes.readUInt16BE(at + 5), width: bytes.readUInt16BE(at + 7) };
    } else if (marker === 0xda) scans++;
    else if (marker === 0xe0) dpi ??= readJfif(bytes, at);
    at = nextMarker(bytes, at + 2 + bytes.readUInt16BE(at + 2));
  }
  if (frame === undefined || scans === 0) throw new BrokenHeader('holds no picture');
  const isSoon = scans === 1 || scans * frame.width * frame.height <= soonScanned;
  return { ...frame, dpi, scans, animated: false, isBounded: isSoon && !isArithmetic, codes: null };
}
