import { showPath } from '../errors/show-path.js';
import { TextureError } from '../errors/texture-error.js';
import { printedNote } from '../raster/printed-note.js';
import { readBytes } from './read-bytes.js';

/**
 * Tell whether a file says that its colours were changed for a printer.
 *
 * @param bytes - The file.
 * @returns Yes where it does.
 */
export function isPrinted(bytes: Buffer): boolean {
  return bytes.includes(printedNote, 0, 'latin1');
}

/**
 * Refuse to change colours for a printer that were changed for one.
 *
 * @param path - Of the file.
 * @returns The refusal.
 */
export function refusePrinted(path: string): TextureError {
  const message = `the colours of ${showPath(path)} were made for a printer already, and would be changed twice`;
  const hint = 'leave printing options out here, or make it anew without them';
  return new TextureError('printed-twice', message, { hint });
}

/**
 * Refuse that of files that are read later on; what else is wrong with them is told there.
 *
 * @param paths - Of pictures.
 * @throws TextureError `printed-twice` where one says so of itself.
 */
export async function refusePrintedFiles(paths: readonly string[]): Promise<void> {
  for (const path of paths) {
    const bytes = await readBytes(path, 'print').catch(() => null);
    if (bytes !== null && isPrinted(bytes)) throw refusePrinted(path);
  }
}
