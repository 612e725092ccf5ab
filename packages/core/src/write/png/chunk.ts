import * as zlib from 'node:zlib';

// Node has its own from 20.15 on; until then, and for no other reason, ours.
const native: ((data: Uint8Array, value?: number) => number) | undefined = Reflect.get(
  zlib,
  'crc32',
);

const table = Uint32Array.from({ length: 256 }, (_, byte) => {
  let value = byte;
  for (let bit = 0; bit < 8; bit++) value = value & 1 ? 0xedb88320 ^ (value >>> 1) : value >>> 1;
  return value;
});

/**
 * The checksum of PNG's chunks.
 *
 * @param data - Any bytes.
 * @returns CRC-32, 0 to 2³² - 1.
 * @see ISO/IEC 3309; PNG Specification, annex D
 */
export function crc32(data: Uint8Array): number {
  let value = 0xffffffff;
  for (const byte of data) value = table[(value ^ byte) & 0xff]! ^ (value >>> 8);
  return ~value >>> 0;
}

/** Bytes of a chunk before its data: length and kind. */
export const chunkHead = 8;

/**
 * Frame data as a chunk of a PNG.
 *
 * @param kind - Four ASCII letters.
 * @param data - What it holds, under 2 GiB.
 * @returns Length, kind, data and checksum.
 * @see PNG Specification, 5.3: chunk layout
 */
export function toChunk(kind: string, data: Uint8Array): Uint8Array {
  const chunk = Buffer.allocUnsafe(data.length + chunkHead + 4);
  chunk.set(data, chunkHead);
  return frameChunk(kind, chunk);
}

/**
 * Frame data where it lies.
 *
 * @param kind - Four ASCII letters.
 * @param chunk - The data, with {@link chunkHead} bytes before it and four behind, which are filled.
 * @returns The same.
 */
export function frameChunk(kind: string, chunk: Buffer): Uint8Array {
  const end = chunk.length - 4;
  chunk.writeUInt32BE(end - chunkHead, 0);
  chunk.write(kind, 4, 'latin1');
  chunk.writeUInt32BE((native ?? crc32)(chunk.subarray(4, end)), end);
  return chunk;
}
