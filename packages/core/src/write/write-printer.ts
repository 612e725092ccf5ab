import { checkOutput } from './check-output.js';
import { inTurn } from './in-turn.js';
import { writeAtomically } from './write-atomically.js';

/**
 * Refuse a printer's profile before the work that leads to it.
 *
 * @param path - Where it is to lie, `.json`.
 * @param inputs - Files that must not be written over.
 * @returns Where it really goes.
 * @throws TextureError when the place does not allow it.
 */
export async function checkPrinterOutput(
  path: string,
  inputs: readonly string[],
): ReturnType<typeof checkOutput> {
  return checkOutput(path, { inputs, extensions: ['.json'] });
}

/**
 * Put a printer's profile on disk, whole or not at all.
 *
 * @param path - Where it is to lie, `.json`.
 * @param text - Of the file.
 * @param inputs - Files that must not be written over.
 * @throws TextureError when the place does not allow it.
 */
export async function writePrinter(
  path: string,
  text: string,
  inputs: readonly string[],
): Promise<void> {
  const target = await checkPrinterOutput(path, inputs);
  await writeAtomically(path, target, inTurn([Buffer.from(text)]));
}
