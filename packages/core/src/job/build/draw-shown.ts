import { limitsOf } from '../../read/held-limits.js';
import { extname } from 'node:path';
import { attributesOf } from '../../drawing/attributes-of.js';
import { decodeDrawing } from '../../drawing/decode-drawing.js';
import { pageOf } from '../../drawing/geometry/page.js';
import { readDrawing } from '../../drawing/read-drawing.js';
import { TextureError } from '../../errors/texture-error.js';
import { showPath } from '../../errors/show-path.js';
import { readDrawingBytes } from '../../read/read-drawing-bytes.js';
import { showDots } from '../../read/show-dots.js';
import { readBytes } from '../../read/read-bytes.js';
import { showFile, type ShownFile } from '../../read/show-file.js';
import type { Size } from '../../units/parse-size.js';
import { mmPerInch } from '../../units/units.js';
import { takeDots } from '../../write/pdf/take-dots.js';
import type { ShownTask, View } from './view-task.js';

// Finer than a screen shows at this size, and enough on paper to look at.
const shownDpi = 150;

/**
 * Draw a small picture of a part's file.
 *
 * @param task - Which.
 * @returns The picture, and what it measures on paper.
 * @throws TextureError where the file does not allow it.
 */
export async function drawShown(task: ShownTask): Promise<View> {
  const { path, mostPixels } = task;
  const size = task.size ?? (await sizeOfDrawing(path));
  const fit = (own: Size<number>): Size<number> => {
    const least = Math.sqrt(mostPixels / (own.width * own.height));
    const wanted = size === null ? 1 : (shownDpi * size.width) / mmPerInch / own.width;
    // A drawing has no pixels of its own, of which more would show nothing.
    const most = isDrawing(path) ? Infinity : 1;
    const times = Math.min(least, wanted, most);
    return {
      width: Math.max(1, Math.round(own.width * times)),
      height: Math.max(1, Math.round(own.height * times)),
    };
  };
  const shown = /\.pdf$/i.test(path) ? await showPage(path, fit) : await showFile(path, fit);
  return { ...shown, found: null, size };
}

async function showPage(
  path: string,
  fit: (own: Size<number>) => Size<number>,
): Promise<ShownFile> {
  const dots = takeDots(await readBytes(path, 'made'));
  if (dots === null)
    throw new TextureError('unsupported-format', `${showPath(path)} holds no picture of ours`);
  try {
    return await showDots(dots, fit);
  } catch (cause) {
    throw new TextureError('damaged-picture', `${showPath(path)} could not be shown`, { cause });
  }
}

function isDrawing(path: string): boolean {
  return /^\.svgz?$/i.test(extname(path));
}

const rootTag = /<(?:[\w.-]+:)?svg(?=[\s/>])(?:[^>"']|"[^"]*"|'[^']*')*>/;

async function sizeOfDrawing(path: string): Promise<Size<number> | null> {
  if (!isDrawing(path)) return null;
  const { bytes } = await readDrawingBytes(path);
  const text = decodeDrawing(bytes).text.replace(/<!--[^]*?-->/g, '');
  const [tag] = rootTag.exec(text) ?? [];
  if (tag === undefined) return null;
  const drawing = readDrawing(tag.replace(/\/?>$/, '/>'), limitsOf('drawing'));
  const { box } = pageOf(attributesOf(drawing, drawing.root));
  return box && { width: box.x1 - box.x0, height: box.y1 - box.y0 };
}
