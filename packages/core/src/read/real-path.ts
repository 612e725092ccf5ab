import { realpath } from 'node:fs/promises';
import { basename, dirname, join, resolve } from 'node:path';

/**
 * Follow a file's name to its real end.
 *
 * @param path - As given.
 * @returns Its real path, or null where there is none.
 */
export async function realPath(path: string): Promise<string | null> {
  return realpath(path).catch(() => null);
}

/**
 * Follow the name of a file that may not be there yet.
 *
 * @param path - As given.
 * @returns Where it really is, or would be: links of the folders that are there are followed.
 */
export async function realEnd(path: string): Promise<string> {
  const whole = resolve(path);
  const real = await realPath(whole);
  if (real !== null || whole === dirname(whole)) return real ?? whole;
  return join(await realEnd(dirname(whole)), basename(whole));
}
