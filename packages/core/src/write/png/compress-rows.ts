import { buffer } from 'node:stream/consumers';
import { constants, createDeflate } from 'node:zlib';
import type { RowSource } from '../../raster/row-source.js';
import { toChunk } from './chunk.js';
import { combineAdler32 } from './combine-adler32.js';
import { filterPaeth, filterSub, repeatFiltered } from './filter-row.js';

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
// Up to here a smaller file is worth more than time: of Paeth-filtered brick level 6 makes 1 to 2 % less
// than level 3, in nearly twice the time.
const smallBytes = 16 << 20;

// A deflate stream's first two bytes (window of 32 KB), and a last, empty block.
const zlibHead = Uint8Array.of(0x78, 0x5e);
const lastBlock = Uint8Array.of(0x03, 0x00);

// After a full flush, what is left of a zlib stream is an empty block and the checksum.
const tailBytes = lastBlock.length + 4;

// The checksum is summed by the compressor's own threads as well.
async function compress(filtered: Uint8Array, level: number): Promise<Block> {
  const stream = createDeflate({ level, memLevel: 9, chunkSize: 1 << 18 });
  stream.write(filtered);
  stream.flush(constants.Z_FULL_FLUSH, () => stream.end());
  const whole = await buffer(stream);
  const deflated = whole.subarray(zlibHead.length, whole.length - tailBytes);
  const adler = whole.readUInt32BE(whole.length - 4);
  return { deflated, chunk: toChunk('IDAT', deflated), adler, length: filtered.length };
}

/** Rows from the top, and where among them a block ends in any case. */
interface Wanted {
  readonly count: number;
  readonly cut: number;
}

// Filter rows into blocks. The first row looks at nothing above it, so what comes out may follow
// itself.
function* filterRows(source: RowSource, { count, cut }: Wanted): Generator<Uint8Array> {
  const { width, rows, channels = 3, across = width } = source;
  const stride = width * channels + 1;
  const perBlock = Math.max(1, Math.floor(blockBytes / stride));
  // One pixel more than repeats: the first has none to its left.
  const own = channels * Math.min(width, across + 1);
  const above = new Uint8Array(own);
  const allot = (done: number): Uint8Array =>
    new Uint8Array(Math.min(perBlock, (done < cut ? cut : count) - done) * stride);
  let block = allot(0);
  let filled = 0;
  let done = 0;
  for (const row of rows()) {
    const out = block.subarray(filled, filled + stride);
    const begin = row.subarray(0, own);
    if (done === 0) filterSub(begin, out, channels);
    else filterPaeth(out, begin, above, channels);
    repeatFiltered(out, channels * across, channels);
    above.set(begin);
    filled += stride;
    done++;
    if (filled === block.length) {
      yield block;
      if (done === count) return;
      block = allot(done);
      filled = 0;
    }
  }
  throw new Error(`a picture said to have ${count} rows gave ${done}`);
}

// In order, while the next ones are made and compressed.
async function* compressBlocks(source: RowSource, wanted: Wanted): AsyncGenerator<Block> {
  const level = source.width * (source.channels ?? 3) * wanted.count <= smallBytes ? 6 : 3;
  const waiting: Promise<Block>[] = [];
  try {
    for (const filtered of filterRows(source, wanted)) {
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
function repeatedRows({ width, height, channels = 3, period }: RowSource): number | null {
  if (period === undefined) return null;
  const count = period * Math.max(1, Math.ceil(blockBytes / (period * (width * channels + 1))));
  return count * 2 <= height ? count : null;
}

async function* repeatBlocks(source: RowSource): AsyncGenerator<Block> {
  const { height, width, channels = 3 } = source;
  const count = repeatedRows(source);
  if (count === null) {
    yield* compressBlocks(source, { count: height, cut: height });
    return;
  }
  // What is left over at the foot is the beginning of them, and ends where a block does.
  const rest = height % count;
  const stride = width * channels + 1;
  const blocks: Block[] = [];
  for await (const block of compressBlocks(source, { count, cut: rest || count })) {
    blocks.push(block);
    yield block;
  }
  for (let done = 2 * count; done <= height; done += count) yield* blocks;
  for (let at = 0, left = rest * stride; left > 0; at++) {
    const block = blocks[at]!;
    yield block;
    left -= block.length;
  }
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
