import { promisify } from 'node:util';
import { gunzip } from 'node:zlib';
import { showPath } from '../errors/show-path.js';
import { TextureError } from '../errors/texture-error.js';

const unpack = promisify(gunzip);

/**
 * Unpack a drawing that was compressed, `.svgz`; leave one that was not. How large it comes out is said by
 * its last four bytes, and looked at before it is unpacked.
 *
 * @param path - Of the file, for messages.
 * @param bytes - The file.
 * @param maxBytes - What it may come to.
 * @returns Its text, as bytes.
 * @throws TextureError where it is too large, or damaged.
 * @see RFC 1952, 2.3: member format
 */
export async function unpackDrawing(
  path: string,
  bytes: Buffer,
  maxBytes: number,
): Promise<Buffer> {
  if (bytes[0] !== 0x1f || bytes[1] !== 0x8b) return bytes;
  const shown = showPath(path);
  const size = bytes.length < 18 ? 0 : bytes.readUInt32LE(bytes.length - 4);
  if (size > maxBytes) {
    const message = `${shown} is a compressed drawing that says it is ${Math.round(size / 1e6)} MB large, and ${maxBytes / 1e6} MB is the limit`;
    throw new TextureError('too-large', message, {
      hint: 'save it as plain SVG, its pictures linked',
    });
  }
  try {
    // What says less than it holds is damaged, or worse.
    return await unpack(bytes, { maxOutputLength: Math.max(1, size) });
  } catch (cause) {
    throw new TextureError('bad-drawing', `${shown} is a compressed drawing that is damaged`, {
      cause,
      hint: 'save it again, as plain SVG',
    });
  }
}
