import { constants, type Stats } from 'node:fs';
import { type FileHandle, open, stat } from 'node:fs/promises';
import { showPath } from '../errors/show-path.js';
import { TextureError, type TextureErrorCode } from '../errors/texture-error.js';
import { type InputKind, mostOf } from '../limits/limits.js';
import { liftedBy, moreThan } from '../limits/over-limit.js';
import { limitsOf } from './held-limits.js';

// What the system's own codes mean to a person, and which of ours they are.
const meanings = new Map<string, readonly [code: TextureErrorCode, what: string]>([
  ['ENOENT', ['no-file', 'does not exist']],
  ['ENOTDIR', ['no-file', 'does not exist: a file stands where a folder should be']],
  ['ENAMETOOLONG', ['no-file', 'does not exist: the name is too long for this system']],
  ['ELOOP', ['unreadable', 'is a symbolic link that leads round in a circle']],
  ['EACCES', ['unreadable', 'may not be read: permission is denied']],
  ['EPERM', ['unreadable', 'may not be read: permission is denied']],
  ['EISDIR', ['not-a-file', 'is a folder, not a file']],
  ['EMFILE', ['unreadable', 'cannot be read: too many files are open']],
]);

function systemCode(cause: unknown): string {
  return cause instanceof Error && 'code' in cause ? String(cause.code) : 'unknown error';
}

function explain(path: string, cause: unknown): TextureError {
  if (cause instanceof TextureError) return cause;
  if (cause instanceof RangeError) {
    const message = `${showPath(path)} takes more memory than there is`;
    return new TextureError('too-large', message, { cause });
  }
  const system = systemCode(cause);
  const [code, what] = meanings.get(system) ?? ['unreadable', `cannot be read (${system})`];
  return new TextureError(code, `${showPath(path)} ${what}`, { cause });
}

function kindOf(stats: Stats): string {
  if (stats.isDirectory()) return 'a folder';
  if (stats.isFIFO()) return 'a pipe';
  if (stats.isSocket()) return 'a socket';
  return 'a device';
}

function checkStats(path: string, stats: Stats, kind: InputKind): void {
  if (!stats.isFile()) {
    throw new TextureError('not-a-file', `${showPath(path)} is ${kindOf(stats)}, not a file`);
  }
  const { bytes } = limitsOf(kind);
  if (stats.size > bytes) {
    const told = `${showPath(path)} holds ${besideBytes(stats.size, bytes)}`;
    const lifted = liftedBy('bytes', stats.size, mostOf(kind));
    throw new TextureError('too-large', `${told}${lifted}`, { limit: 'bytes' });
  }
}

// In one unit, that of the limit.
function besideBytes(size: number, most: number): string {
  if (most < 1e5) return `${size} bytes, more than ${most} bytes`;
  return moreThan(size, most).replaceAll('million', 'MB');
}

async function fill(file: FileHandle, bytes: Buffer): Promise<number> {
  let at = 0;
  while (at < bytes.length) {
    const { bytesRead } = await file.read(bytes, at, bytes.length - at, at);
    if (bytesRead === 0) break;
    at += bytesRead;
  }
  return at;
}

/**
 * Read a regular file, whole and once. What is no regular file is never opened, for opening a pipe
 * may block for ever; what is over the limit is refused before anything is allocated.
 *
 * @param path - Of the file; symbolic links are followed.
 * @param kind - What it is read as, which tells how much it may hold.
 * @returns Its bytes.
 * @throws TextureError `no-file`, `not-a-file`, `unreadable` or `too-large`.
 */
export async function readBytes(path: string, kind: InputKind): Promise<Buffer> {
  if (path === '') throw new TextureError('no-file', 'the name of the file is empty');
  if (path.includes('\0')) {
    throw new TextureError('no-file', `${showPath(path)} cannot be a file: its name holds a NUL`);
  }
  let file: FileHandle | undefined;
  try {
    checkStats(path, await stat(path), kind);
    // It may have been swapped since: opened so that a pipe does not block, and looked at again.
    // A system without the flag has undefined there, which counts as 0.
    file = await open(path, constants.O_RDONLY | constants.O_NONBLOCK);
    const stats = await file.stat();
    checkStats(path, stats, kind);
    const bytes = Buffer.allocUnsafe(stats.size);
    const held = await fill(file, bytes);
    return bytes.subarray(0, held);
  } catch (cause) {
    throw explain(path, cause);
  } finally {
    await file?.close();
  }
}
