// ITU-T T.81, table K.1, in the order of figure 5 (zigzag): what encoders scale by their quality.
const usual = [
  16, 11, 12, 14, 12, 10, 16, 14, 13, 14, 18, 17, 16, 19, 24, 40, 26, 24, 22, 22, 24, 49, 35, 37,
  29, 40, 58, 51, 61, 60, 57, 51, 56, 55, 64, 72, 92, 78, 64, 68, 87, 69, 55, 56, 80, 109, 81, 87,
  95, 98, 103, 104, 103, 62, 77, 113, 121, 112, 100, 120, 92, 101, 103, 99,
];

/** How a JPEG was encoded. */
export interface JpegCoding {
  /** As libjpeg counts it, 50 to 100. */
  readonly quality: number;
  /** Whether it holds colour at half the fineness each way. */
  readonly halved: boolean;
}

/**
 * Tell how a JPEG was encoded: encoded so once more, blocks that lie where they did come out as they
 * were.
 *
 * @param bytes - The file.
 * @returns How, or null where it was otherwise than encoders commonly do.
 * @see ITU-T T.81 (1992), B.2.2 and B.2.4.1: frame header, quantization tables
 */
export function jpegCoding(bytes: Buffer): JpegCoding | null {
  let quality: number | null = null;
  for (let at = 2; at + 70 <= bytes.length && bytes[at] === 0xff;) {
    const marker = bytes[at + 1] ?? 0;
    if (marker === 0xdb && bytes[at + 4] === 0)
      quality = qualityOf(bytes.subarray(at + 5, at + 69));
    if (marker >= 0xc0 && marker <= 0xc2) {
      // Of the brightness: samples across and down for each of a colour.
      const sampling = bytes[at + 11];
      if (quality === null || (sampling !== 0x11 && sampling !== 0x22)) return null;
      return { quality, halved: sampling === 0x22 };
    }
    at += 2 + bytes.readUInt16BE(at + 2);
  }
  return null;
}

function qualityOf(table: Uint8Array): number | null {
  for (let quality = 100; quality >= 50; quality--) {
    const scale = 200 - 2 * quality;
    if (usual.every((step, i) => table[i] === Math.max(1, Math.floor((step * scale + 50) / 100)))) {
      return quality;
    }
  }
  return null;
}
