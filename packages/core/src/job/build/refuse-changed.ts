import { showPath } from '../../errors/show-path.js';
import { TextureError } from '../../errors/texture-error.js';
import { hashFile } from '../../read/hash-file.js';

/**
 * Refuse files that changed on the way: what was made of them is of neither state, and nothing is remembered of it.
 *
 * @param inputs - What they are to be, by path, in SHA-256; null where there is to be none.
 * @throws TextureError when one is another.
 */
export async function refuseChanged(
  inputs: Readonly<Record<string, string | null>>,
): Promise<void> {
  for (const [path, sum] of Object.entries(inputs)) {
    if ((await hashFile(path)) === sum) continue;
    const message = `${showPath(path)} was changed while the job was being built`;
    throw new TextureError('changed-input', message, { hint: 'build again' });
  }
}
