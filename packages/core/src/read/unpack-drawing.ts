import { Readable } from 'node:stream';
import { createGunzip } from 'node:zlib';
import { showPath } from '../errors/show-path.js';
import { mostOf } from '../limits/limits.js';
import { liftedBy } from '../limits/over-limit.js';
import { limitsOf } from './held-limits.js';
import { TextureError } from '../errors/texture-error.js';

/**
 * Unpack a drawing that was compressed, `.svgz`; leave one that was not. Its last four bytes say how large it
 * comes out, if it is of one member with nothing behind; where that is too much or not so, it is unpacked once to
 * nowhere, for of a file that was cut short they say anything, and of several members the last alone.
 *
 * @param path - Of the file, for messages.
 * @param bytes - The file.
 * @returns Its text, as bytes.
 * @throws TextureError where it is too large, or damaged.
 * @see RFC 1952, 2.3: member format
 */
export async function unpackDrawing(path: string, bytes: Buffer): Promise<Buffer> {
  if (bytes[0] !== 0x1f || bytes[1] !== 0x8b) return bytes;
  const most = limitsOf('drawing').bytes;
  const stated = bytes.length < 18 ? 0 : bytes.readUInt32LE(bytes.length - 4);
  let out = Buffer.allocUnsafe(stated > most ? 0 : stated);
  const { size, cause } = await unpackInto(bytes, out, most);
  const shown = showPath(path);
  if (size > most) {
    // What it says of itself may be less than it is.
    const lifted = liftedBy('bytes', Math.max(stated, 2 * most), mostOf('drawing'));
    const message = `${shown} is a compressed drawing of more than ${most / 1e6} MB${lifted}`;
    throw new TextureError('too-large', message, { hint: 'link its pictures', limit: 'bytes' });
  }
  if (cause === undefined && size > 0) {
    if (size === out.length) return out;
    // A member that says other than it holds was refused by zlib: there are several, or zeros behind them.
    out = Buffer.allocUnsafe(size);
    await unpackInto(bytes, out, most);
    return out;
  }
  throw new TextureError('bad-drawing', `${shown} is a compressed drawing that is damaged`, {
    cause,
    hint: 'save it again, as plain SVG',
  });
}

interface Unpacked {
  readonly size: number;
  readonly cause?: unknown;
}

// Straight to where it belongs: gathered and joined it would take twice as much.
async function unpackInto(bytes: Buffer, out: Buffer, most: number): Promise<Unpacked> {
  let size = 0;
  const pieces: AsyncIterable<Buffer> = Readable.from([bytes]).pipe(createGunzip({ chunkSize }));
  try {
    for await (const piece of pieces) {
      if (size + piece.length <= out.length) out.set(piece, size);
      size += piece.length;
      if (size > most) break;
    }
    return { size };
  } catch (cause) {
    return { size, cause };
  }
}

const chunkSize = 1 << 20;
