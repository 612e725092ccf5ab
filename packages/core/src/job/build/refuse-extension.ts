import { extname } from 'node:path';
import { pictureFormats } from '../../write/formats/index.js';
import { BadJob, type JobPath } from './bad-job.js';

const pictures = pictureFormats.flatMap(({ extensions }) => extensions);

/** What a part may be written as. */
export const partExtensions: readonly string[] = [...pictures, '.svg', '.pdf'];

/** What sheets may be written as. */
export const sheetExtensions: readonly string[] = ['.pdf', ...pictures];

/**
 * Refuse a file of a kind that is not written, before the long work that leads to it.
 *
 * @param output - The file.
 * @param extensions - What it may end with.
 * @param path - Where what is written into it stands.
 * @throws BadJob that says what is written.
 */
export function refuseExtension(
  output: string,
  extensions: readonly string[],
  path: JobPath,
): void {
  const extension = extname(output).toLowerCase();
  if (extensions.includes(extension)) return;
  const what = extension === '' ? 'no extension' : extension;
  throw new BadJob([...path, 'file'], `expected a file of ${extensions.join(', ')}, got ${what}`);
}
