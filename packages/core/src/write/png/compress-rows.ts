import { finished } from 'node:stream/promises';
import { constants, createDeflate, type ZlibOptions } from 'node:zlib';
import { type Again, listAgain } from '../../raster/list-again.js';
import { chunkHead, frameChunk, toChunk } from './chunk.js';
import { combineAdler32 } from './combine-adler32.js';
import { openFilter, type RowFilter } from './open-filter.js';
import { unhurried, type WrittenRows } from '../written-rows.js';
import { type Piece, planPieces } from './plan-pieces.js';

/** A run of rows, compressed on its own. */
interface Block {
  /** Deflate, framed, ended on a byte's border with the window dropped: it may follow any other, or be repeated. */
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
const leastParts = 8;
// Up to here a smaller file is worth more than time: of Paeth-filtered brick level 6 makes 1 to 2 % less
// than level 3, in nearly twice the time.
const smallBytes = 8 << 20;

// A deflate stream's first two bytes (window of 32 KB), and a last, empty block.
const zlibHead = Uint8Array.of(0x78, 0x5e);
const lastBlock = Uint8Array.of(0x03, 0x00);

// The checksum is summed by the compressor's own threads as well.
async function compress(filtered: Uint8Array, how: ZlibOptions): Promise<Block> {
  const stream = createDeflate({ ...how, chunkSize: 1 << 17 });
  // What frames it takes the place of its head and, as after a full flush is left an empty block and the checksum, of
  // its tail: megabytes are copied once.
  const parts: Uint8Array[] = [new Uint8Array(chunkHead - zlibHead.length)];
  stream.on('data', (part: Uint8Array) => parts.push(part));
  stream.write(filtered);
  stream.flush(constants.Z_FULL_FLUSH, () => stream.end());
  await finished(stream);
  const whole = Buffer.concat(parts);
  const adler = whole.readUInt32BE(whole.length - 4);
  const chunk = frameChunk('IDAT', whole.subarray(0, whole.length - lastBlock.length));
  return { chunk, adler, length: filtered.length };
}

// Bytes of what is varied seldom come again: to look for such runs gains nothing and takes a quarter of the time.
// Where a twentieth of them do, as beside an outline and between pieces, a run takes next to no room.
function strategyOf(filtered: Uint8Array): ZlibOptions {
  const step = 61;
  let runs = 0;
  for (let i = step; i < filtered.length; i += step) {
    if (filtered[i] === filtered[i - 1] && filtered[i] === filtered[i - 2]) runs++;
  }
  const isRun = 20 * step * runs > filtered.length;
  return { strategy: isRun ? constants.Z_RLE : constants.Z_HUFFMAN_ONLY, memLevel: 8 };
}

function filterOf(source: WrittenRows): RowFilter {
  const { width, channels = 3, isVaried = false } = source;
  return openFilter({ length: width * channels, channels, isVaried, again: columnsAgain(source) });
}

// Filter rows piece by piece, as far as there are any. A piece that follows various rows looks at none above.
async function* filterRows(
  source: WrittenRows,
  pieces: readonly Piece[],
  spare: Uint8Array[],
): AsyncGenerator<Uint8Array> {
  const filter = filterOf(source);
  const stride = source.width * (source.channels ?? 3) + 1;
  const above = new Uint8Array(stride - 1);
  const waiting = pieces.values();
  let piece = waiting.next().value;
  let filtered: Uint8Array = new Uint8Array(0);
  let y = -1;
  for await (const rows of unhurried(source)) {
    for (const row of rows) {
      if (piece === undefined) return;
      y++;
      const { from, to, opens } = piece;
      if (y === from) filtered = takeSpare(spare, (to - from) * stride);
      if (y >= from) {
        const line = filtered.subarray((y - from) * stride);
        const up = y === from && opens ? null : above;
        filter(line, row, up);
      }
      above.set(row);
      if (y + 1 < to) continue;
      yield filtered;
      piece = waiting.next().value;
    }
  }
  if (piece !== undefined) {
    throw new Error(`a picture said to have ${source.height} rows gave ${y + 1}`);
  }
}

// Memory is used again: what is left to be collected would be more than all else.
function takeSpare(spare: Uint8Array[], length: number): Uint8Array {
  const last = spare.pop();
  const bytes = last !== undefined && last.length >= length ? last : new Uint8Array(length);
  return bytes.subarray(0, length);
}

// In order, while the next ones are made and compressed.
async function* compressPieces(
  source: WrittenRows,
  pieces: readonly Piece[],
): AsyncGenerator<Block> {
  const rows = pieces.reduce((sum, { from, to }) => sum + to - from, 0);
  const level = source.width * (source.channels ?? 3) * rows <= smallBytes ? 6 : 3;
  const waiting: Promise<Block>[] = [];
  const spare: Uint8Array[] = [];
  const begin = async (filtered: Uint8Array): Promise<Block> => {
    // Of a weathered page, 2 to 4 % more in half the time.
    const how = source.isVaried === true ? strategyOf(filtered) : { memLevel: 9 };
    const block = await compress(filtered, { level, ...how });
    spare.push(new Uint8Array(filtered.buffer));
    return block;
  };
  try {
    for await (const filtered of filterRows(source, pieces, spare)) {
      waiting.push(begin(filtered));
      const first = waiting.length === maxWaiting ? waiting.shift() : undefined;
      if (first !== undefined) yield await first;
    }
    for (let next = waiting.shift(); next !== undefined; next = waiting.shift()) yield await next;
  } finally {
    await Promise.allSettled(waiting);
  }
}

// Fewer rows at a time than a part of a block make a file larger; those that repeat are then taken together.
function rowsAgain({ height, period, again }: WrittenRows, perBlock: number): readonly Again[] {
  if (again?.rows.some(({ length }) => leastParts * length >= perBlock)) return again.rows;
  if (period === undefined) return [];
  return listAgain({ period: period * Math.ceil(perBlock / period), starts: [0] }, 0, height);
}

function columnsAgain({ width, across, again }: WrittenRows): readonly Again[] {
  if (again !== undefined) return again.columns;
  return across === undefined ? [] : listAgain({ period: across, starts: [0] }, 0, width);
}

async function* repeatBlocks(source: WrittenRows): AsyncGenerator<Block> {
  const { height, width, channels = 3 } = source;
  const perBlock = Math.max(1, Math.floor(blockBytes / (width * channels + 1)));
  const { pieces, order } = planPieces(height, rowsAgain(source, perBlock), perBlock);
  if (order.length === pieces.length) {
    yield* compressPieces(source, pieces);
    return;
  }
  const last = new Map(order.map((piece, at) => [piece, at]));
  const held = new Map<number, Block>();
  let [made, done] = [0, 0];
  for await (const block of compressPieces(source, pieces)) {
    held.set(made++, block);
    for (let piece = order[done]; piece !== undefined; piece = order[++done]) {
      const next = held.get(piece);
      if (next === undefined) break;
      yield next;
      if (last.get(piece) === done) held.delete(piece);
    }
  }
}

// Of a chunk, without its length and kind, and its checksum.
function dataOf(chunk: Uint8Array): Uint8Array {
  return chunk.subarray(chunkHead, chunk.length - 4);
}

/**
 * Compress a picture into the data chunks of a PNG. Rows that repeat are compressed once and their
 * compressed bytes repeated; nothing is held but a few blocks of 1 MB, and of rows that come again what
 * they were compressed to, until they come for the last time.
 *
 * @param source - The picture.
 * @yields IDAT chunks, in order.
 * @see RFC 1950 and RFC 1951; PNG Specification, 10: compression
 */
export async function* compressRows(source: WrittenRows): AsyncGenerator<Uint8Array> {
  let adler = 1;
  let first = true;
  for await (const { chunk, adler: part, length } of repeatBlocks(source)) {
    adler = combineAdler32(adler, part, length);
    yield first ? toChunk('IDAT', Buffer.concat([zlibHead, dataOf(chunk)])) : chunk;
    first = false;
  }
  const tail = Buffer.alloc(4);
  tail.writeUInt32BE(adler);
  yield toChunk('IDAT', Buffer.concat([lastBlock, tail]));
}
