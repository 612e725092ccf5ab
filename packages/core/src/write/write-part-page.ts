import { basename, extname } from 'node:path';
import { checkOutput } from './check-output.js';
import type { PartPicture } from './part/part-picture.js';
import { renderPart } from './pdf/render-part.js';
import { writeAtomically } from './write-atomically.js';

/**
 * Write a part as a PDF of one page that is as large as it is, whole or not at all.
 *
 * @param path - Of the PDF.
 * @param part - What to draw.
 * @param inputs - Files that must not be written over.
 * @throws TextureError when the place does not allow it.
 */
export async function writePartPage(
  path: string,
  part: PartPicture,
  inputs: readonly string[],
): Promise<void> {
  const target = await checkOutput(path, { inputs, extensions: ['.pdf'] });
  await writeAtomically(path, target, renderPart(part, basename(path, extname(path))));
}
