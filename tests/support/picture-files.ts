import { crc32, deflateSync } from 'node:zlib';
import sharp, { type Create, type Sharp } from 'sharp';

// Files built byte by byte from the formats' own specifications, to say things that encoders do not.

const signature = Buffer.from('89504e470d0a1a0a', 'hex');

// A PNG chunk: length, kind, data, CRC (PNG Specification, 5.3).
export function pngChunk(kind: string, data: Uint8Array = Buffer.alloc(0)): Buffer {
  const body = Buffer.concat([Buffer.from(kind, 'latin1'), data]);
  const [length, sum] = [Buffer.alloc(4), Buffer.alloc(4)];
  length.writeUInt32BE(data.length);
  sum.writeUInt32BE(crc32(body));
  return Buffer.concat([length, body, sum]);
}

export interface PngParts {
  readonly width: number;
  readonly height: number;
  /** Bits a channel: 8 unless told. */
  readonly depth?: number;
  /** 0 grey, 2 RGB, 3 palette, 6 RGB and alpha: 2 unless told. */
  readonly colour?: number;
  /** Chunks between the head and the pixels. */
  readonly chunks?: readonly Buffer[];
  /** Rows without their filter bytes; grey all over unless told. */
  readonly pixels?: Uint8Array;
}

// A PNG of stated parts.
export function pngFile(parts: PngParts): Buffer {
  const { width, height, depth = 8, colour = 2, chunks = [] } = parts;
  const head = Buffer.alloc(13);
  head.writeUInt32BE(width, 0);
  head.writeUInt32BE(height, 4);
  head.set([depth, colour], 8);
  const stride = Math.ceil((width * depth * ([1, 0, 3, 1, 2, 0, 4][colour] ?? 1)) / 8);
  const pixels = parts.pixels ?? new Uint8Array(stride * Math.min(height, 1000)).fill(128);
  const rows: Uint8Array[] = [];
  for (let at = 0; at < pixels.length; at += stride) {
    rows.push(Uint8Array.of(0), pixels.subarray(at, at + stride));
  }
  const data = pngChunk('IDAT', deflateSync(Buffer.concat(rows)));
  return Buffer.concat([signature, pngChunk('IHDR', head), ...chunks, data, pngChunk('IEND')]);
}

// A pHYs chunk (PNG Specification, 11.3.4.3): unit 1 is the metre, 0 an aspect only.
export function physChunk(x: number, y: number, unit: number): Buffer {
  const data = Buffer.alloc(9);
  data.writeUInt32BE(x, 0);
  data.writeUInt32BE(y, 4);
  data.writeUInt8(unit, 8);
  return pngChunk('pHYs', data);
}

// One field of a TIFF directory: a SHORT, a RATIONAL given as two numbers, or text of four bytes or more.
export type TiffField = readonly [tag: number, value: number | readonly [number, number] | string];

// An EXIF block or the directory of a TIFF: little-endian, one directory (TIFF 6.0, section 2).
export function exifBlock(fields: readonly TiffField[]): Buffer {
  const start = 8 + 2 + fields.length * 12 + 4;
  const head = Buffer.alloc(start);
  head.write('II*\0', 'latin1');
  head.writeUInt32LE(8, 4);
  head.writeUInt16LE(fields.length, 8);
  const tail: Buffer[] = [];
  let end = start;
  const put = (bytes: Buffer): number => {
    tail.push(bytes);
    end += bytes.length;
    return end - bytes.length;
  };
  fields.forEach(([tag, value], i) => {
    const at = 10 + i * 12;
    head.writeUInt16LE(tag, at);
    head.writeUInt32LE(1, at + 4);
    if (typeof value === 'number') {
      head.writeUInt16LE(3, at + 2);
      head.writeUInt16LE(value, at + 8);
      return;
    }
    if (typeof value === 'string') {
      const text = Buffer.from(`${value}\0`);
      head.writeUInt16LE(2, at + 2);
      head.writeUInt32LE(text.length, at + 4);
      head.writeUInt32LE(put(text), at + 8);
      return;
    }
    const pair = Buffer.alloc(8);
    pair.writeUInt32LE(value[0], 0);
    pair.writeUInt32LE(value[1], 4);
    head.writeUInt16LE(5, at + 2);
    head.writeUInt32LE(put(pair), at + 8);
  });
  return Buffer.concat([head, ...tail]);
}

function segment(marker: number, data: Uint8Array): Buffer {
  const head = Buffer.from([0xff, marker, 0, 0]);
  head.writeUInt16BE(data.length + 2, 2);
  return Buffer.concat([head, data]);
}

// A JFIF block (JFIF 1.02): unit 0 an aspect only, 1 the inch, 2 the centimetre.
export function jfifSegment(x: number, y: number, unit: number): Buffer {
  const data = Buffer.from('JFIF\0\x01\x02\0\0\0\0\0\0\0', 'latin1');
  data.writeUInt8(unit, 7);
  data.writeUInt16BE(x, 8);
  data.writeUInt16BE(y, 10);
  return segment(0xe0, data);
}

// An EXIF segment of a JPEG (CIPA DC-008, 4.7.2).
export function exifSegment(block: Buffer): Buffer {
  return segment(0xe1, Buffer.concat([Buffer.from('Exif\0\0', 'latin1'), block]));
}

// Put segments right after a JPEG's first marker, in place of an APP0 that may stand there.
export function withSegments(jpeg: Buffer, segments: readonly Buffer[]): Buffer {
  const from = jpeg[3] === 0xe0 ? 4 + jpeg.readUInt16BE(4) : 2;
  return Buffer.concat([jpeg.subarray(0, 2), ...segments, jpeg.subarray(from)]);
}

// 24 x 16 pixels of grey; 8 x 8 in the top left corner red, in the top right corner green.
export function corners(): Sharp {
  const block = (background: string): { create: Create } => ({
    create: { width: 8, height: 8, channels: 3, background },
  });
  const grey: Create = { width: 24, height: 16, channels: 3, background: '#808080' };
  return sharp({ create: grey }).composite([
    { input: block('#ff0000'), left: 0, top: 0 },
    { input: block('#00ff00'), left: 16, top: 0 },
  ]);
}
