import { basename, dirname, extname } from 'node:path';
import { showPath } from '../errors/show-path.js';
import type { Warning } from '../errors/warning.js';
import { checkDrawingOutput, writeDrawing } from './write-drawing.js';
import { holdPng } from './part/hold-png.js';
import type { PartPattern, PartPicture } from './part/part-picture.js';
import { renderBaked, renderPattern, type ShownPicture } from './part/render-svg.js';
import { openPictureFolder } from './picture-folder.js';

/** How a part is drawn as an SVG, and what must stay. */
export interface PartDrawing {
  /** The part. */
  readonly part: PartPicture;
  /** What repeats, where that is to be drawn again and again; else null. */
  readonly pattern: PartPattern | null;
  /** Files that must not be written over. */
  readonly inputs: readonly string[];
}

// Programs on a common reader of XML refuse attributes over 10 MB; base64 takes four characters for
// three bytes.
const mostEmbedded = 5_250_000;

/**
 * Write a part as an SVG, whole or not at all. Its picture stands in it, or, where that is more than
 * drawing programs read, beside it.
 *
 * @param path - Of the drawing, `.svg`.
 * @param drawing - What to write.
 * @returns What the user should know.
 * @throws TextureError when the place does not allow it.
 */
export async function writePartDrawing(
  path: string,
  drawing: PartDrawing,
): Promise<readonly Warning[]> {
  const { part, pattern, inputs } = drawing;
  await checkDrawingOutput(path, inputs);
  const png = await holdPng(pattern?.tile ?? part.rows);
  const write = async (picture: ShownPicture): Promise<void> => {
    const text =
      pattern === null ? renderBaked(part, picture) : renderPattern(part, pattern, picture);
    await writeDrawing(path, inBytes(text), inputs);
  };
  if (png.length <= mostEmbedded) {
    await write({ png });
    return [];
  }
  const folder = await openPictureFolder(dirname(path), { dry: false });
  try {
    const file = basename(await folder.add(basename(path, extname(path)), '.png', png));
    await write({ file });
    const message = `${showPath(path)} shows ${showPath(file)}, which lies beside it: its ${(png.length / 1e6).toFixed(1)} MB are more than drawing programs read inside a drawing`;
    return [{ code: 'picture-beside', message }];
  } catch (cause) {
    await folder.undo();
    throw cause;
  }
}

function* inBytes(pieces: Iterable<string>): Generator<Uint8Array> {
  for (const piece of pieces) yield Buffer.from(piece, 'latin1');
}
