import { endianness } from 'node:os';
import { chunkHead } from './chunk.js';
import { layCodeLengths, layCodes, reversed } from './huffman.js';

/** What bytes were packed to. */
interface PackedLiterals {
  /** Blocks of a deflate stream, ended on a byte's border, with room for a chunk's head before and four bytes behind. */
  readonly chunk: Buffer;
  /** Adler-32 of the bytes. */
  readonly adler: number;
}

// Bytes that share codes: of fewer the codes themselves take more than they save, of more they fit worse.
const blockBytes = 1 << 15;
// Adler-32's sums are reduced before they leave 31 bits.
const adlerRun = 3800;
const adlerBase = 65_521;

// RFC 1951, 3.2.7. Symbols: bytes, then the end of a block; two distances, which nothing uses, as zlib tells them.
const endOfBlock = 256;
const symbols = 257;
const unusedDistances = 2;
// Lengths of codes are told in four bits each: codes for 0 to 15, alike, and none for runs.
const lengthOrder = [16, 17, 18, 0, 8, 7, 9, 6, 10, 5, 11, 4, 12, 3, 13, 2, 14, 1, 15];
const codeForLength = Array.from({ length: 16 }, (_, length) => reversed(length, 4));

/** Packs one or more bytes, any. */
export type PackLiterals = (bytes: Uint8Array) => PackedLiterals;

/**
 * Ready what packs bytes that seldom come again by how often each is seen alone, as deflate does that looks for nothing
 * else: in half the time of zlib, and to no more. What it makes is blocks, none of them the last, and after them an empty
 * one that ends on a byte's border: they follow any other, and any other may follow.
 *
 * @returns What packs; its room is used again.
 * @see RFC 1951 and RFC 1950
 */
export function openPacker(): PackLiterals {
  const tables = openTables();
  let words = new Int32Array(0);
  return (bytes) => {
    const blocks = Math.ceil(bytes.length / blockBytes);
    // A byte takes 15 bits at most, and what the codes of a block are under 1,200.
    const room = ((2 * bytes.length + 150 * blocks + chunkHead) >> 2) + 8;
    if (words.length < room) words = new Int32Array(room);
    const writer: BitWriter = { words, at: chunkHead >> 2, bits: 0, held: 0 };
    let adler: AdlerSums = { low: 1, high: 0 };
    for (let from = 0; from < bytes.length; from += blockBytes) {
      const block = bytes.subarray(from, from + blockBytes);
      adler = sumBytes(block, adler);
      countBytes(block, tables.counts);
      layCodeLengths(tables.counts, tables.lengths);
      layCodes(tables.lengths, tables.codes);
      beginBlock(writer, tables.lengths);
      putBytes(writer, block, tables.codes);
      put(writer, tables.codes[endOfBlock]! >>> 4, tables.codes[endOfBlock]! & 15);
    }
    return { chunk: endBlocks(writer), adler: 65_536 * adler.high + adler.low };
  };
}

interface BitWriter {
  readonly words: Int32Array;
  /** The word that is being filled. */
  at: number;
  /** What is in it, from its lowest bit on. */
  bits: number;
  /** How many bits that is. */
  held: number;
}

// Up to 31 bits, their first lowest.
function put(writer: BitWriter, value: number, count: number): void {
  const { words, held } = writer;
  writer.bits |= value << held;
  writer.held = (held + count) & 31;
  if (held + count < 32) return;
  words[writer.at++] = writer.bits;
  // Shifts of 32 bits are made in two.
  writer.bits = (value >>> 1) >>> (31 - held);
}

interface Tables {
  readonly counts: Int32Array;
  readonly lengths: Uint8Array;
  readonly codes: Int32Array;
}

function openTables(): Tables {
  return {
    counts: new Int32Array(symbols),
    lengths: new Uint8Array(symbols),
    codes: new Int32Array(symbols),
  };
}

interface AdlerSums {
  readonly low: number;
  readonly high: number;
}

// Of every so many stretches of bytes one is counted: what all of them hold differs from that by next to nothing.
const countedRun = 128;
const countedShare = 3;

// What is not seen in what is counted may still be there.
function countBytes(bytes: Uint8Array, counts: Int32Array): void {
  counts.fill(1);
  for (let from = 0; from < bytes.length; from += countedShare * countedRun) {
    const end = Math.min(bytes.length, from + countedRun);
    for (let i = from; i < end; i++) counts[bytes[i]!]!++;
  }
  counts[endOfBlock] = 1;
}

interface AdlerSums {
  readonly low: number;
  readonly high: number;
}

function sumBytes(bytes: Uint8Array, sums: AdlerSums): AdlerSums {
  let { low, high } = sums;
  for (let i = 0; i < bytes.length;) {
    const end = Math.min(bytes.length, i + adlerRun);
    for (; i + 3 < end; i += 4) {
      const one = bytes[i]!;
      const two = one + bytes[i + 1]!;
      const three = two + bytes[i + 2]!;
      const four = three + bytes[i + 3]!;
      high += 4 * low + one + two + three + four;
      low += four;
    }
    for (; i < end; i++) {
      low += bytes[i]!;
      high += low;
    }
    low %= adlerBase;
    high %= adlerBase;
  }
  return { low, high };
}

function beginBlock(writer: BitWriter, lengths: Uint8Array): void {
  // Not the last; codes of its own.
  put(writer, 0b100, 3);
  put(writer, symbols - 257, 5);
  put(writer, unusedDistances - 1, 5);
  put(writer, lengthOrder.length - 4, 4);
  for (const length of lengthOrder) put(writer, length < 16 ? 4 : 0, 3);
  for (const length of lengths) put(writer, codeForLength[length]!, 4);
  for (let i = 0; i < unusedDistances; i++) put(writer, codeForLength[1]!, 4);
}

// Two at a time, and without asking whether a word is full: there is no telling.
function putBytes(writer: BitWriter, bytes: Uint8Array, codes: Int32Array): void {
  const { words } = writer;
  let { at, bits, held } = writer;
  const pairs = bytes.length & ~1;
  for (let i = 0; i < pairs; i += 2) {
    const one = codes[bytes[i]!]!;
    const two = codes[bytes[i + 1]!]!;
    const first = one & 15;
    const value = (one >>> 4) | ((two >>> 4) << first);
    bits |= value << held;
    words[at] = bits;
    const next = held + first + (two & 15);
    const full = -(next >>> 5);
    bits = (bits & ~full) | (((value >>> 1) >>> (31 - held)) & full);
    at -= full;
    held = next & 31;
  }
  writer.at = at;
  writer.bits = bits;
  writer.held = held;
  if (pairs < bytes.length) put(writer, codes[bytes[pairs]!]! >>> 4, codes[bytes[pairs]!]! & 15);
}

function endBlocks(writer: BitWriter): Buffer {
  // An empty block of bytes as they are: its length, and that with each bit the other way.
  put(writer, 0, 3);
  put(writer, 0, (8 - (writer.held & 7)) & 7);
  put(writer, 0, 16);
  put(writer, 0xffff, 16);
  const { words, at, held } = writer;
  words[at] = writer.bits;
  const bytes = Buffer.from(words.buffer, 0, 4 * at + 4);
  // A word's lowest byte is the first, whatever the machine says.
  if (endianness() === 'BE') bytes.swap32();
  const chunk = Buffer.allocUnsafe(4 * at + (held >> 3) + 4);
  bytes.copy(chunk);
  return chunk;
}
