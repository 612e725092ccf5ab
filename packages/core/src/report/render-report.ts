import { constant, html, type Html, type HtmlPart, toText } from './html.js';
import { count, listed, scaleInWords } from './in-words.js';
import { renderFailures, renderTerms, renderWarnings } from './render-notes.js';
import { definePictures, type PartEntry, registerOf, renderPart } from './render-part.js';
import { renderSheet } from './render-sheet.js';
import { renderSurface } from './render-surface.js';
import type { ReportContent } from './report-content.js';
import { reportStyle } from './report-style.js';

interface Section {
  readonly id: string;
  readonly title: string;
  readonly body: Html;
}

/**
 * Write a page that shows what a job came to. It asks for nothing from outside, and runs nothing.
 *
 * @param content - What there is to show.
 * @returns The page, HTML in UTF-8.
 */
export function renderReport(content: ReportContent): string {
  const { job } = content;
  const entries = content.parts.map((part, i): PartEntry => ({
    part,
    number: i + 1,
    pictures: part.views.map(({ picture }, file) =>
      picture === null || part.size === null ? null : `v${i + 1}-${file + 1}`,
    ),
  }));
  const sections = listSections(content, entries);
  // Should anything ever slip past the escaping, it would run nothing and ask nobody.
  const policy =
    "default-src 'none'; img-src data:; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'";
  const page = html`<html lang="en-GB">
    <head>
      <meta charset="utf-8" />
      <meta http-equiv="Content-Security-Policy" content="${policy}" />
      <meta name="viewport" content="width=device-width, initial-scale=1" />
      <meta name="color-scheme" content="light dark" />
      <title>${job}: record of the build</title>
      <link rel="icon" href="data:," />
      <style>
        ${constant(reportStyle)}
      </style>
    </head>
    <body>
      <a class="skip" href="#main">Skip to the record</a>
      ${definePictures(entries)}
      <header>${titleBlock(content)}</header>
      <nav aria-label="Contents">
        <ol>
          ${sections.map(({ id, title }) => html`<li><a href="#${id}">${title}</a></li>`)}
        </ol>
      </nav>
      <main id="main" tabindex="-1">
        ${sections.map(
          ({ id, title, body }) =>
            html`<section aria-labelledby="${id}">
              <h2 id="${id}">${title}</h2>
              ${body}
            </section> `,
        )}
      </main>
      <footer>
        <p>
          Made by ${content.program}. Sizes are millimetres of paper: print at 100 %, not fitted to
          the page, and hold a rule against the bars. On a screen they are about as large.
        </p>
      </footer>
    </body>
  </html> `;
  return `<!doctype html>\n${toText(page)}`;
}

function titleBlock(content: ReportContent): Html {
  const { job, parts, sheets, surfaces, failures } = content;
  const scales = [...new Set([...parts, ...sheets].map(({ scale }) => scaleInWords(scale)))];
  const lost = [...parts, ...sheets].filter(({ state }) => state === 'failed').length;
  const pages = sheets.reduce((sum, sheet) => sum + sheet.pages.length, 0);
  const state =
    lost > 0
      ? html`<span class="fault"
          >${count(lost, 'thing')} not made, for ${count(failures.length, 'cause')}</span
        >`
      : 'complete';
  const cells: readonly (readonly [string, HtmlPart])[] = [
    ['Scale', listed(scales)],
    ['Surfaces', surfaces.length],
    ['Parts', parts.length],
    ['Sheets', sheets.length === 0 ? 'none' : `${sheets.length} (${count(pages, 'page')})`],
    ['State', state],
  ];
  return html`<div class="block">
    <div class="name">
      <p class="label">Record of the build${content.isSome ? ', of some of the job' : null}</p>
      <h1><bdi>${job}</bdi></h1>
    </div>
    <dl>
      ${cells.map(
        ([term, said]) =>
          html`<div>
            <dt>${term}</dt>
            <dd>${said}</dd>
          </div>`,
      )}
    </dl>
  </div>`;
}

function listSections(content: ReportContent, entries: readonly PartEntry[]): readonly Section[] {
  const { surfaces, sheets, warnings, failures, terms } = content;
  const some = (many: number, section: () => Section): readonly Section[] =>
    many === 0 ? [] : [section()];
  return [
    ...some(failures.length, () => ({
      id: 'faults',
      title: 'What could not be made',
      body: renderFailures(failures),
    })),
    ...some(surfaces.length, () => ({
      id: 'surfaces',
      title: 'Surfaces',
      body: html`${surfaces.map((surface, i) => renderSurface(surface, i + 1))}`,
    })),
    ...some(entries.length, () => ({
      id: 'parts',
      title: 'Parts',
      body: html`${registerOf(entries)}${entries.map(renderPart)}`,
    })),
    ...some(sheets.length, () => ({
      id: 'sheets',
      title: 'Sheets',
      body: html`<div class="sheets">
        ${sheets.map((sheet, i) => renderSheet(sheet, i + 1, entries))}
      </div>`,
    })),
    ...some(warnings.length, () => ({
      id: 'notes',
      title: 'Points to look at',
      body: renderWarnings(warnings),
    })),
    ...some(terms.length, () => ({
      id: 'terms',
      title: 'Licences and credits',
      body: renderTerms(terms),
    })),
    { id: 'bench', title: 'At the bench', body: cautions },
  ];
}

const cautions = html`<ul class="cautions">
  <li>
    <strong>Knife.</strong> Cut with a sharp blade on a cutting mat, along a steel rule, in several
    light strokes, away from your fingers. Put blades out of reach of children.
  </li>
  <li>
    <strong>Spray glue.</strong> Use it outdoors or by an open window, away from flames and sparks,
    and keep it off skin and eyes.
  </li>
  <li><strong>Print.</strong> Print at 100 %, measure the bars before you cut, and let ink dry.</li>
  <li>
    <strong>Not for structural use.</strong> Sizes here are for models. Measure the real thing
    yourself before anybody builds, orders or lifts by them.
  </li>
</ul>`;
