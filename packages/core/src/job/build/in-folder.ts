import { isAbsolute, join } from 'node:path';

/**
 * Take a path of a job file from where that lies.
 *
 * @param folder - Of the file.
 * @param written - As written; an absolute path stays what it is.
 * @returns The path from here.
 */
export function inFolder(folder: string, written: string): string {
  return isAbsolute(written) ? written : join(folder, written);
}
