import { realpath } from 'node:fs/promises';

/**
 * Follow a file's name to its real end.
 *
 * @param path - As given.
 * @returns Its real path, or null where there is none.
 */
export async function realPath(path: string): Promise<string | null> {
  return realpath(path).catch(() => null);
}
