import { limitsOf } from '../../read/held-limits.js';
import { editText } from '../../drawing/edit-text.js';
import { readDrawing } from '../../drawing/read-drawing.js';
import type { Warning } from '../../errors/warning.js';
import type { OpenedDrawing } from '../open/open-drawing.js';
import { reportSlim } from './report-slim.js';
import { type SlimDrawingOptions, slimWish } from './slim-drawing.js';
import { stemOf } from './slim-links.js';
import { slimOpened } from './slim-opened.js';

/** A drawing made smaller that something else is done to before it is written. */
export interface SlimmedWhole {
  /** It, its links as they are to be where it is written. */
  readonly opened: OpenedDrawing;
  /** What the user should know. */
  readonly warnings: readonly Warning[];
}

/**
 * Make the pictures of an open drawing smaller, and read it anew.
 *
 * @param opened - The drawing.
 * @param path - Where it lies.
 * @param options - Where it is to lie, and what it is for.
 * @returns It.
 * @throws TextureError when a file does not allow it.
 */
export async function slimWhole(
  opened: OpenedDrawing,
  path: string,
  options: Omit<SlimDrawingOptions, 'link' | 'report'> & { readonly output: string },
): Promise<SlimmedWhole> {
  const { output } = options;
  const wish = slimWish(options);
  const stem = stemOf(output);
  const slim = await slimOpened(opened, { ...options, path, to: output, stem, wish, folder: null });
  const text = editText(opened.text, slim.edits).join('');
  const isKept = !slim.mayGrow && text.length >= opened.text.length;
  const { bytes, stored } = opened;
  const { warnings } = reportSlim({ ...slim.facts, bytes, stored, isKept });
  return {
    opened: isKept ? opened : { ...opened, text, drawing: readDrawing(text, limitsOf('drawing')) },
    warnings,
  };
}
