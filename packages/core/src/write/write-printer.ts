import { showPath } from '../errors/show-path.js';
import { TextureError } from '../errors/texture-error.js';
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
  if (/\.surface\.json$/i.test(path)) {
    const message = `${showPath(path)} is how the measurement of a photo is named`;
    throw new TextureError('unsupported-output', message, { hint: 'name it printer.json' });
  }
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
