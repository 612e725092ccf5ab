import { BrokenHeader, type PictureHeader } from './header.js';

// Bytes that one value of a field takes, by TIFF type; 5 is a RATIONAL, 16 BigTIFF's LONG8.
const sizes = new Map([
  [1, 1],
  [3, 2],
  [4, 4],
  [5, 8],
  [16, 8],
]);

// Nobody's name is longer.
const longestText = 65_536;

/** Reads numbers in the file's own byte order and width. */
interface Reader {
  readonly big: boolean;
  readonly short: (at: number) => number;
  readonly long: (at: number) => number;
  readonly offset: (at: number) => number;
}

function readerOf(bytes: Buffer): Reader {
  const reversed = bytes.toString('latin1', 0, 2) === 'MM';
  const short = (at: number): number =>
    reversed ? bytes.readUInt16BE(at) : bytes.readUInt16LE(at);
  const long = (at: number): number => (reversed ? bytes.readUInt32BE(at) : bytes.readUInt32LE(at));
  const long8 = (at: number): number =>
    Number(reversed ? bytes.readBigUInt64BE(at) : bytes.readBigUInt64LE(at));
  const big = short(2) === 43;
  return { big, short, long, offset: big ? long8 : long };
}

function readValue(bytes: Buffer, reader: Reader, entry: number): number | undefined {
  const type = reader.short(entry + 2);
  const inline = reader.big ? 8 : 4;
  const field = entry + (reader.big ? 12 : 8);
  const size = sizes.get(type) ?? 0;
  const at = size > inline ? reader.offset(field) : field;
  if (at + size > bytes.length) return undefined;
  if (type === 1) return bytes[at];
  if (type === 3) return reader.short(at);
  if (type === 5) return reader.long(at) / reader.long(at + 4);
  if (type === 16) return reader.offset(at);
  return type === 4 ? reader.long(at) : undefined;
}

// Where the fields of the first directory stand.
function* fieldsOf(bytes: Buffer, reader: Reader): Generator<number> {
  const start = reader.offset(reader.big ? 8 : 4);
  if (start < 8 || start >= bytes.length)
    throw new BrokenHeader('has its directory outside the file');
  const count = reader.big ? reader.offset(start) : reader.short(start);
  const size = reader.big ? 20 : 12;
  const first = start + (reader.big ? 8 : 2);
  if (first + count * size > bytes.length)
    throw new BrokenHeader('breaks off inside its directory');
  for (let entry = first; entry < first + count * size; entry += size) yield entry;
}

// The first value of each.
function readDirectory(bytes: Buffer): Map<number, number> {
  const reader = readerOf(bytes);
  const fields = new Map<number, number>();
  for (const entry of fieldsOf(bytes, reader)) {
    const value = readValue(bytes, reader, entry);
    if (value !== undefined) fields.set(reader.short(entry), value);
  }
  return fields;
}

function readDpi(fields: ReadonlyMap<number, number>): PictureHeader['dpi'] {
  const [x, y] = [fields.get(282), fields.get(283)];
  // 2 inch, the default; 3 centimetre; 1 tells an aspect only.
  const scale = new Map([
    [2, 1],
    [3, 2.54],
  ]).get(fields.get(296) ?? 2);
  if (x === undefined || y === undefined || scale === undefined) return null;
  return { x: x * scale, y: y * scale };
}

// Compression: none, LZW, deflate by either number, PackBits. Others hold whole files of other formats, or say
// how much memory they want. Tiles (field 322) may be far larger than the picture.
const plain = new Set([1, 5, 8, 32_773, 32_946]);

/**
 * Read the first directory of a TIFF or BigTIFF.
 *
 * @param bytes - The file.
 * @returns What it says.
 * @throws BrokenHeader, or RangeError where it ends early.
 * @see TIFF 6.0, section 2 and 8; BigTIFF: 8-byte offsets, version 43
 */
export function readTiffHeader(bytes: Buffer): PictureHeader {
  const fields = readDirectory(bytes);
  // 50706 is DNGVersion: the first picture of a raw photo is a thumbnail.
  if (fields.has(50_706)) throw new BrokenHeader('is a raw photo (DNG), which is not read');
  const [width, height] = [fields.get(256), fields.get(257)];
  if (width === undefined || height === undefined) throw new BrokenHeader('holds no picture');
  const isBounded = plain.has(fields.get(259) ?? 1) && !fields.has(322);
  return {
    width,
    height,
    dpi: readDpi(fields),
    scans: 1,
    animated: false,
    isBounded,
    codes: null,
  };
}

/**
 * Read a text of the first directory of a TIFF or BigTIFF.
 *
 * @param bytes - The file.
 * @param tag - Of the field.
 * @returns It as UTF-8, of which ASCII is a part, with the NUL at its end, 64 KB at most; empty where there is none.
 * @throws BrokenHeader, or RangeError where the file ends early.
 * @see TIFF 6.0, section 2: type 2, ASCII
 */
export function readTiffText(bytes: Buffer, tag: number): string {
  const reader = readerOf(bytes);
  for (const entry of fieldsOf(bytes, reader)) {
    if (reader.short(entry) !== tag || reader.short(entry + 2) !== 2) continue;
    const length = Math.min(reader.offset(entry + 4), longestText);
    const field = entry + (reader.big ? 12 : 8);
    const at = length > (reader.big ? 8 : 4) ? reader.offset(field) : field;
    return bytes.toString('utf8', at, at + length);
  }
  return '';
}
