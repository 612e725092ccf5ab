import { basename, dirname, extname } from 'node:path';
import { showPath } from '../errors/show-path.js';
import type { Warning } from '../errors/warning.js';
import type { ShownPicture } from './part/render-svg.js';
import { withPictureFolder } from './picture-folder.js';
import { writeDrawing } from './write-drawing.js';

/** A drawing that shows pictures. */
export interface ShowingDrawing {
  /** Its pictures, PNG. */
  readonly pngs: readonly Uint8Array[];
  /**
   * Draw it.
   *
   * @param pictures - As it is to show them, in the same order.
   * @returns Its text, in ASCII.
   */
  readonly render: (pictures: readonly ShownPicture[]) => Iterable<string>;
  /** Files that must not be written over. */
  readonly inputs: readonly string[];
}

// Programs on a common reader of XML refuse attributes over 10 MB; base64 takes four characters for
// three bytes.
const mostEmbedded = 5_250_000;

/**
 * Write a drawing, whole or not at all. Its pictures stand in it, or, where one is more than drawing
 * programs read, beside it.
 *
 * @param path - Of the drawing, `.svg`.
 * @param drawing - What to write.
 * @returns What the user should know.
 * @throws TextureError when the place does not allow it.
 */
export async function writeShown(
  path: string,
  drawing: ShowingDrawing,
): Promise<readonly Warning[]> {
  const { pngs, render, inputs } = drawing;
  if (pngs.every(({ length }) => length <= mostEmbedded)) {
    const pictures = pngs.map((png) => ({ png }));
    await writeDrawing(path, inBytes(render(pictures)), inputs);
    return [];
  }
  return withPictureFolder(dirname(path), { dry: false }, async (folder) => {
    const pictures: { file: string }[] = [];
    for (const png of pngs) {
      const file = await folder.add(basename(path, extname(path)), '.png', png);
      pictures.push({ file: basename(file) });
    }
    await writeDrawing(path, inBytes(render(pictures)), inputs);
    const bytes = pngs.reduce((sum, { length }) => sum + length, 0);
    const names = pictures.map(({ file }) => showPath(file)).join(' and ');
    const [lies, its] = pngs.length === 1 ? ['which lies', 'its'] : ['which lie', 'their'];
    const message = `${showPath(path)} shows ${names}, ${lies} beside it: ${its} ${(bytes / 1e6).toFixed(1)} MB are more than drawing programs read inside a drawing`;
    return [{ code: 'picture-beside', message }];
  });
}

function* inBytes(pieces: Iterable<string>): Generator<Uint8Array> {
  for (const piece of pieces) yield Buffer.from(piece, 'latin1');
}
