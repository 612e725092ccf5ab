import { extname } from 'node:path';
import { checkOutput } from './check-output.js';
import { pictureFormats } from './formats/index.js';
import { inTurn } from './in-turn.js';
import type { WritePictureOptions } from './write-picture.js';
import { writeAtomically } from './write-atomically.js';

/**
 * Tell whether a name is that of a kind of picture.
 *
 * @param path - Of a picture to write.
 * @param kind - What it would be: `jpeg`.
 * @returns True where its extension says so.
 */
export function isNamedFor(path: string, kind: string): boolean {
  const extension = extname(path).toLowerCase();
  const format = pictureFormats.find(({ extensions }) => extensions.includes(extension));
  return format?.name.toLowerCase() === kind;
}

/**
 * Write a picture as another file has it, to the byte.
 *
 * @param path - Where it goes.
 * @param bytes - What that file holds.
 * @param options - Which files must stay as they are.
 * @throws TextureError when the place does not allow it; its message names the file.
 */
export async function copyPicture(
  path: string,
  bytes: Uint8Array,
  options: Pick<WritePictureOptions, 'inputs'> = {},
): Promise<void> {
  const target = await checkOutput(path, { inputs: options.inputs ?? [] });
  await writeAtomically(path, target, inTurn([bytes]));
}
