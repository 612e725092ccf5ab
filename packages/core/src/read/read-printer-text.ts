import { BadField } from '../surface/fields.js';
import { readBytes } from './read-bytes.js';

/**
 * Read the text of a printer's profile.
 *
 * @param path - Of the file.
 * @returns Its text.
 * @throws BadField when it is no UTF-8.
 * @throws TextureError when it could not be read.
 */
export async function readPrinterText(path: string): Promise<string> {
  const bytes = await readBytes(path, 'printer');
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch (cause) {
    throw new BadField('it is no UTF-8 text', { cause });
  }
}
