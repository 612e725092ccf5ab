import { checkOutput } from './check-output.js';
import { inTurn } from './in-turn.js';
import { writeAtomically } from './write-atomically.js';

/**
 * Refuse an output for a drawing before the work that leads to it.
 *
 * @param path - Where it is to lie.
 * @param inputs - Files that must not be written over.
 * @returns Where it really goes.
 * @throws TextureError when the place does not allow it.
 */
export async function checkDrawingOutput(
  path: string,
  inputs: readonly string[],
): ReturnType<typeof checkOutput> {
  return checkOutput(path, { inputs, extensions: ['.svg'] });
}

/**
 * Refuse an output for a drawing that may be compressed before the work that leads to it.
 *
 * @param path - Where it is to lie.
 * @param inputs - Files that must not be written over.
 * @returns Where it really goes.
 * @throws TextureError when the place does not allow it.
 */
export async function checkPackableOutput(
  path: string,
  inputs: readonly string[],
): ReturnType<typeof checkOutput> {
  return checkOutput(path, { inputs, extensions: ['.svg', '.svgz'] });
}

/**
 * Put a drawing on disk, whole or not at all.
 *
 * @param path - Of the drawing, `.svg` or `.svgz`.
 * @param pieces - The file's bytes, in order: for `.svgz` compressed.
 * @param inputs - Files that must not be written over.
 * @returns How many they came to.
 * @throws TextureError when the place does not allow it.
 */
export async function writeDrawing(
  path: string,
  pieces: Iterable<Uint8Array>,
  inputs: readonly string[],
): Promise<number> {
  const target = await checkPackableOutput(path, inputs);
  let size = 0;
  const counted = function* (): Generator<Uint8Array> {
    for (const piece of pieces) {
      size += piece.length;
      yield piece;
    }
  };
  await writeAtomically(path, target, inTurn(counted()));
  return size;
}
