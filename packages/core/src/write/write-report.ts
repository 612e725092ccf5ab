import { checkOutput } from './check-output.js';
import { inTurn } from './in-turn.js';
import { writeAtomically } from './write-atomically.js';

const extensions = ['.html', '.htm'];

/**
 * Refuse an output for a report before the work that leads to it.
 *
 * @param path - Where it is to lie.
 * @param inputs - Files that must not be written over.
 * @returns Where it really goes.
 * @throws TextureError when the place does not allow it.
 */
export async function checkReportOutput(
  path: string,
  inputs: readonly string[],
): ReturnType<typeof checkOutput> {
  return checkOutput(path, { inputs, extensions });
}

/**
 * Put a report on disk, whole or not at all.
 *
 * @param path - Of the file, `.html` or `.htm`.
 * @param text - What it holds.
 * @param inputs - Files that must not be written over.
 * @throws TextureError when the place does not allow it.
 */
export async function writeReport(
  path: string,
  text: string,
  inputs: readonly string[],
): Promise<void> {
  const target = await checkReportOutput(path, inputs);
  await writeAtomically(path, target, inTurn([Buffer.from(text)]));
}
