import { extname } from 'node:path';
import { Readable } from 'node:stream';
import { createGzip } from 'node:zlib';

/**
 * Whether what is written there is to be compressed.
 *
 * @param path - Of a drawing.
 * @returns Yes for `.svgz`.
 */
export function isPacked(path: string): boolean {
  return extname(path).toLowerCase() === '.svgz';
}

/**
 * Compress a drawing, as `.svgz`. No time and no name stand in it: the same drawing gives the same bytes.
 *
 * @param pieces - Its bytes, in order.
 * @returns The file.
 * @see RFC 1952
 */
export async function packDrawing(pieces: Iterable<Uint8Array>): Promise<Buffer> {
  const packed: Buffer[] = [];
  const stream: AsyncIterable<Buffer> = Readable.from(pieces).pipe(createGzip({ level: 9 }));
  for await (const piece of stream) packed.push(piece);
  return Buffer.concat(packed);
}
