import { dirname, resolve } from 'node:path';
import type { Outcome } from '../errors/outcome.js';
import { checkOutput } from './check-output.js';
import { inTurn } from './in-turn.js';
import { makeFolders } from './keep-folder.js';
import { whileLocked } from './while-locked.js';
import { writeAtomically } from './write-atomically.js';

interface TextToWrite {
  readonly text: string;
}

/**
 * Put a file of references on disk, whole or not at all, over the older one; what others of us write meanwhile waits.
 *
 * @param path - Where it is to lie, `.yaml`.
 * @param home - The folder that the system has for such files, made where it is not there; or null.
 * @param write - Reads the file as it is by now, and gives its text as it is to be, or why it is to be left.
 * @returns What that gave.
 * @throws TextureError when the place does not allow it.
 */
export async function writeReferences<Given extends Outcome<TextToWrite, string>>(
  path: string,
  home: string | null,
  write: () => Promise<Given>,
): Promise<Given> {
  if (home === dirname(resolve(path))) await makeFolders(home);
  const wish = { extensions: ['.yaml', '.yml'] };
  const { path: real } = await checkOutput(path, wish);
  return whileLocked(real, async () => {
    const given = await write();
    if (!given.ok) return given;
    const { text } = given.value;
    await writeAtomically(path, await checkOutput(path, wish), inTurn([Buffer.from(text)]));
    return given;
  });
}
