import { dirname, resolve } from 'node:path';
import { checkOutput } from './check-output.js';
import { inTurn } from './in-turn.js';
import { makeFolders } from './keep-folder.js';
import { writeAtomically } from './write-atomically.js';

/**
 * Put a file of references on disk, whole or not at all, over the older one.
 *
 * @param path - Where it is to lie, `.yaml`.
 * @param text - Of the file.
 * @param home - The folder that the system has for such files, made where it is not there; or null.
 * @throws TextureError when the place does not allow it.
 */
export async function writeReferences(
  path: string,
  text: string,
  home: string | null,
): Promise<void> {
  if (home === dirname(resolve(path))) await makeFolders(home);
  const target = await checkOutput(path, { extensions: ['.yaml', '.yml'] });
  await writeAtomically(path, target, inTurn([Buffer.from(text)]));
}
