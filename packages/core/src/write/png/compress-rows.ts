import { promisify } from 'node:util';
import { constants, deflateRaw, type ZlibOptions } from 'node:zlib';
import type { RowSource } from '../../raster/row-source.js';
import { adler32, combineAdler32 } from './adler32.js';
import { toChunk } from './chunk.js';
import { filterPaeth, filterSub } from './filter-row.js';

/** A run of rows, compressed on its own. */
interface Block {
  /** Deflate, ended on a byte's border with the window dropped: blocks may be joined, or repeated. */
  readonly deflated: Uint8Array;
  /** The same, framed. */
  readonly chunk: Uint8Array;
  /** Of the filtered rows. */
  readonly adler: number;
  /** Bytes of the filtered rows. */
  readonly length: number;
}

// Filtered bytes that are compressed at a time: enough that dropping the window costs under 1 %.
const blockBytes = 1 << 20;
// Blocks that wait for the compressor's threads; more only takes memory.
const maxWaiting = 4;
// Up to here a smaller file is worth more than time: level 6 is 5 % smaller and takes three times
// as long as level 4.
const smallBytes = 16 << 20;

const deflate = promisify<Uint8Array, ZlibOptions, Buffer>(deflateRaw);

// A deflate stream's first two bytes (window of 32 KB), and a last, empty block.
const zlibHead = Uint8Array.of(0x78, 0x5e);
const lastBlock = Uint8Array.of(0x03, 0x00);

async function compress(filtered: Uint8Array, level: number): Promise<Block> {
  const deflating = deflate(filtered, {
    level,
    memLevel: 9,
    chunkSize: 1 << 18,
    finishFlush: constants.Z_FULL_FLUSH,
  });
  // Summed while the compressor's own threads work.
  const adler = adler32(filtered);
  const deflated = await deflating;
  return { deflated, chunk: toChunk('IDAT', deflated), adler, length: filtered.length };
}

// Filter `count` rows from the top into blocks. The first row looks at nothing above it, so what
// comes out may follow itself.
function* filterRows({ width, rows }: RowSource, count: number): Generator<Uint8Array> {
  const stride = width * 3 + 1;
  const perBlock = Math.max(1, Math.floor(blockBytes / stride));
  const above = new Uint8Array(width * 3);
  let block = new Uint8Array(Math.min(perBlock, count) * stride);
  let filled = 0;
  let done = 0;
  for (const row of rows()) {
    const out = block.subarray(filled * stride, (filled + 1) * stride);
    if (done === 0) filterSub(row, out);
    else filterPaeth(row, above, out);
    above.set(row);
    filled++;
    done++;
    if (filled * stride === block.length) {
      yield block;
      if (done === count) return;
      block = new Uint8Array(Math.min(perBlock, count - done) * stride);
      filled = 0;
    }
  }
  throw new Error(`a picture said to have ${count} rows gave ${done}`);
}

// In order, while the next ones are made and compressed.
async function* compressBlocks(source: RowSource, count: number): AsyncGenerator<Block> {
  const level = source.width * 3 * count <= smallBytes ? 6 : 4;
  const waiting: Promise<Block>[] = [];
  try {
    for (const filtered of filterRows(source, count)) {
      waiting.push(compress(filtered, level));
      const first = waiting.length === maxWaiting ? waiting.shift() : undefined;
      if (first !== undefined) yield await first;
    }
    for (let next = waiting.shift(); next !== undefined; next = waiting.shift()) yield await next;
  } finally {
    await Promise.allSettled(waiting);
  }
}

// Rows that are compressed once and then repeated: whole periods, enough to fill a block, or null
// where the picture does not hold two of them.
function repeatedRows({ width, height, period }: RowSource): number | null {
  if (period === undefined) return null;
  const count = period * Math.max(1, Math.ceil(blockBytes / (period * (width * 3 + 1))));
  return count * 2 <= height ? count : null;
}

async function* repeatBlocks(source: RowSource): AsyncGenerator<Block> {
  const count = repeatedRows(source);
  if (count === null) {
    yield* compressBlocks(source, source.height);
    return;
  }
  const blocks: Block[] = [];
  for await (const block of compressBlocks(source, count)) blocks.push(block);
  for (let done = count; done <= source.height; done += count) yield* blocks;
  const rest = source.height % count;
  if (rest > 0) yield* compressBlocks(source, rest);
}

/**
 * Compress a picture into the data chunks of a PNG. Rows that repeat are compressed once and their
 * compressed bytes repeated; nothing but a few blocks of 1 MB is held.
 *
 * @param source - The picture.
 * @yields IDAT chunks, in order.
 * @see RFC 1950 and RFC 1951; PNG Specification, 10: compression
 */
export async function* compressRows(source: RowSource): AsyncGenerator<Uint8Array> {
  let adler = 1;
  let first = true;
  for await (const { deflated, chunk, adler: part, length } of repeatBlocks(source)) {
    adler = combineAdler32(adler, part, length);
    yield first ? toChunk('IDAT', Buffer.concat([zlibHead, deflated])) : chunk;
    first = false;
  }
  const tail = Buffer.alloc(4);
  tail.writeUInt32BE(adler);
  yield toChunk('IDAT', Buffer.concat([lastBlock, tail]));
}
