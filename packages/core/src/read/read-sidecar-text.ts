import { TextureError } from '../errors/texture-error.js';
import { BadField } from '../surface/fields.js';
import { readBytes } from './read-bytes.js';

/**
 * Read the text of a surface file.
 *
 * @param path - Of the file.
 * @returns Its text, or null where there is no such file.
 * @throws BadField when it is no UTF-8.
 * @throws TextureError when it could not be read.
 */
export async function readSidecarText(path: string): Promise<string | null> {
  try {
    const bytes = await readBytes(path, 'sidecar');
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch (cause) {
    if (cause instanceof TextureError && cause.code === 'no-file') return null;
    if (cause instanceof TypeError) throw new BadField('it is no UTF-8 text', { cause });
    throw cause;
  }
}
