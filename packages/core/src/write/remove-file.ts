import { rm } from 'node:fs/promises';

/**
 * Remove a file that was written and is not wanted any more.
 *
 * @param path - Where it lies; gone already is as well.
 */
export async function removeFile(path: string): Promise<void> {
  await rm(path, { force: true }).catch(() => undefined);
}
