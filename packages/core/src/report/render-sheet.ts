import { drawPage } from './draw-page.js';
import { html, type Html } from './html.js';
import { count, listed, scaleInWords, sizeOnPaper } from './in-words.js';
import type { PartEntry } from './render-part.js';
import type { ReportSheet } from './report-content.js';

/**
 * Write what is known of pages of parts.
 *
 * @param sheet - Which.
 * @param number - Its number in the report, from 1.
 * @param entries - The parts of the report.
 * @returns Its entry.
 */
export function renderSheet(
  sheet: ReportSheet,
  number: number,
  entries: readonly PartEntry[],
): Html {
  const { name, scale, paper, room, pages, files, state, why } = sheet;
  const head = html`<h3 id="a${number}"><span class="no">A${number}</span> <bdi>${name}</bdi></h3>`;
  if (state === 'failed')
    return html`<article class="entry" aria-labelledby="a${number}">
      ${head}
      <p class="fault">Not made: ${why ?? 'something else failed'}.</p>
    </article>`;
  const on = paper === null ? '' : ` of ${sizeOnPaper(paper)}`;
  return html`<article class="entry" aria-labelledby="a${number}">
    ${head}
    <p>
      ${count(pages.length, 'page')}${on}, ${scaleInWords(scale)}, in <bdi>${listed(files)}</bdi>.
    </p>
    <div class="pages">
      ${
        paper === null
          ? null
          : pages.map((page, i) => {
              const shown = sheet.parts.map((place, at) => ({
                id: place === null ? null : (entries[place.part]?.pictures[place.file] ?? null),
                name: sheet.names[at] ?? 'a part',
              }));
              const names = [
                ...new Set(page.pictures.map((placed) => shown[placed.part]?.name ?? 'a part')),
              ];
              const said = `Page ${i + 1} of ${name}: ${listed(names)}, with marks to cut by and bars to check the print.`;
              return html`<figure style="--w:${Math.min(80, paper.width * 0.38)}mm">
                ${drawPage(page, room ?? paper, shown, said)}
                <figcaption>Page ${i + 1}: <bdi>${listed(names)}</bdi></figcaption>
              </figure>`;
            })
      }
    </div>
  </article>`;
}
