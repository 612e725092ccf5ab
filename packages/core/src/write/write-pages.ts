import { basename, extname, join, dirname } from 'node:path';
import type { Page } from '../page/page.js';
import { notePrinted } from '../raster/printed-note.js';
import type { Dpi } from '../units/units.js';
import { checkOutput } from './check-output.js';
import { OpenedPictures } from './page/opened-pictures.js';
import {
  type PageDrawing,
  type PagePicture,
  type PageSheet,
  shownBy,
} from './page/page-picture.js';
import { renderPage } from './page/render-page.js';
import { renderPages } from './pdf/render-pages.js';
import { writeAtomically, writeTogether } from './write-atomically.js';
import { writePicture } from './write-picture.js';

/** What {@link writePages} writes. */
export interface PagesToWrite {
  /** Pages, 1 or more; without texts where they become pictures. */
  readonly pages: readonly Page[];
  /** The parts that they show. */
  readonly pictures: readonly (PagePicture | PageDrawing)[];
  /** What they are drawn on. */
  readonly sheet: PageSheet;
  /** How fine pictures of pages are. */
  readonly dpi: Dpi;
  /** Whether colours on them were made for a printer, which pictures of pages say. */
  readonly isPrinted: boolean;
  /** Files that must not be written over. */
  readonly inputs: readonly string[];
}

/**
 * Name the files that pages become: one PDF, or a picture each.
 *
 * @param path - As asked for: `page.pdf`, `page.png`.
 * @param pages - How many there are.
 * @returns `page.pdf`; `page.png`, or `page-1.png`, `page-2.png`… where there are several.
 */
function namePages(path: string, pages: number): readonly string[] {
  const extension = extname(path);
  if (extension.toLowerCase() === '.pdf' || pages === 1) return [path];
  const stem = basename(path, extension);
  return Array.from({ length: pages }, (_, i) =>
    join(dirname(path), `${stem}-${i + 1}${extension}`),
  );
}

/**
 * Write pages, all of their files whole or none.
 *
 * @param path - Of the file: `.pdf`, or a kind of picture that is written.
 * @param content - What to write.
 * @returns The files written.
 * @throws TextureError when the place does not allow it; its message names the file.
 */
export async function writePages(path: string, content: PagesToWrite): Promise<readonly string[]> {
  const { pages, pictures, sheet, dpi, isPrinted, inputs } = content;
  const files = namePages(path, pages.length);
  if (extname(path).toLowerCase() === '.pdf') {
    const target = await checkOutput(path, { inputs, extensions: ['.pdf'] });
    const title = basename(path, extname(path));
    await writeAtomically(path, target, renderPages(pages, pictures, { ...sheet, title }));
    return files;
  }
  const opened = new OpenedPictures();
  // All that can be refused is, before the first is written.
  for (const file of files) await checkOutput(file, { inputs });
  await writeTogether(async () => {
    for (const [i, page] of pages.entries()) {
      const rows = renderPage(page, pictures, { ...sheet, dpi, opened });
      await writePicture(files[i] ?? path, notePrinted(rows, isPrinted), { inputs });
      const later = pages.slice(i + 1).flatMap((other) => other.pictures);
      opened.keep(new Set(later.flatMap(({ part, blank }) => shownBy(pictures[part]!, blank))));
    }
  });
  return files;
}
