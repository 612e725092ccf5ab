import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { stat } from 'node:fs/promises';

/**
 * Tell a file's state by its bytes.
 *
 * @param path - Where it lies.
 * @returns Their SHA-256 in lower-case hexadecimal, or null where no regular file can be read.
 */
export async function hashFile(path: string): Promise<string | null> {
  try {
    if (!(await stat(path)).isFile()) return null;
    const hash = createHash('sha256');
    for await (const piece of createReadStream(path)) hash.update(piece as Buffer);
    return hash.digest('hex');
  } catch {
    // Whoever reads it says what is wrong with it.
    return null;
  }
}

/** A file as it was when it was written. */
export interface FileState {
  /** Its bytes. */
  readonly size: number;
  /** When it was written last, ms. */
  readonly modified: number;
}

/**
 * Tell a file's state without reading it.
 *
 * @param path - Where it lies.
 * @returns How large it is and when it was written, or null where no regular file is there.
 */
export async function stateOf(path: string): Promise<FileState | null> {
  const found = await stat(path).catch(() => null);
  return found?.isFile() === true ? { size: found.size, modified: found.mtimeMs } : null;
}
