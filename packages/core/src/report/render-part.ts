import { inDigits } from '../units/in-digits.js';
import { html, type Html } from './html.js';
import { listed, onPaper, realSize, scaleInWords, sizeOnPaper } from './in-words.js';
import { fact } from './render-surface.js';
import type { ReportPart } from './report-content.js';
import { scaleBar } from './scale-bar.js';

// What A4 and US Letter both hold inside the margins of the printed report, with words below it, mm.
const printed = { width: 184, height: 225 };
// What the narrowest screens show without scrolling, mm.
const narrow = 84;

const kinds = {
  fill: 'a wall, filled',
  relief: 'relief',
  dress: 'a drawing, dressed',
  slim: 'a drawing, made smaller',
};

const states = { built: 'made in this build', kept: 'as it was', failed: 'not made' };

/** A part in the document. */
export interface PartEntry {
  /** What is told of it. */
  readonly part: ReportPart;
  /** Its number, from 1. */
  readonly number: number;
  /** The ids of its pictures, those of its `views`, or null. */
  readonly pictures: readonly (string | null)[];
}

/**
 * Define the pictures of parts, once for wherever they are shown.
 *
 * @param entries - All parts.
 * @returns What the document begins with.
 */
export function definePictures(entries: readonly PartEntry[]): Html {
  const images = entries.map(({ part: { size, views }, pictures }) =>
    views.map(({ picture }, file) => {
      const id = pictures[file] ?? null;
      if (id === null || size === null || picture === null) return null;
      return html`<image
        id="${id}"
        width="${size.width}"
        height="${size.height}"
        preserveAspectRatio="none"
        href="data:image/jpeg;base64,${picture.base64}"
      />`;
    }),
  );
  return html`<svg class="store" width="0" height="0" aria-hidden="true" focusable="false">
    <defs>${images}</defs>
  </svg>`;
}

/**
 * List parts in a table.
 *
 * @param entries - All of them.
 * @returns The table.
 */
export function registerOf(entries: readonly PartEntry[]): Html {
  return html`<div class="scroll" role="region" aria-label="Register of parts" tabindex="0">
    <table>
      <thead>
        <tr>
          <th scope="col">No.</th>
          <th scope="col">Part</th>
          <th scope="col">On paper</th>
          <th scope="col">Scale</th>
          <th scope="col">File</th>
          <th scope="col">State</th>
        </tr>
      </thead>
      <tbody>
        ${entries.map(
          ({ part, number }) =>
            html`<tr>
              <td><a href="#p${number}">P${number}</a></td>
              <th scope="row"><bdi>${part.name}</bdi></th>
              <td>${part.size === null ? '–' : sizeOnPaper(part.size)}</td>
              <td>${scaleInWords(part.scale)}</td>
              <td><bdi>${part.files[0] ?? '–'}</bdi></td>
              <td>${states[part.state]}</td>
            </tr> `,
        )}
      </tbody>
    </table>
  </div>`;
}

/**
 * Write what is known of a part, at its size.
 *
 * @param entry - Which.
 * @returns Its entry.
 */
export function renderPart(entry: PartEntry): Html {
  const { part, number } = entry;
  const { name, scale, kind, surfaces, files, state, why, isForPrinter } = part;
  const of = surfaces.length === 0 ? null : html`, of <bdi>${listed(surfaces)}</bdi>`;
  return html`<article class="entry" aria-labelledby="p${number}">
    <h3 id="p${number}">
      <span class="no">P${number}</span> <bdi>${name}</bdi> <small>${scaleInWords(scale)}</small>
    </h3>
    ${state === 'failed' ? html`<p class="fault">Not made: ${why ?? 'something else failed'}.</p>` : part.views.map((_, file) => showFile(entry, file))}
    <dl class="facts wide">
      ${sizesOf(part)} ${fact('What', html`${kinds[kind]}${of}`)}
      ${fact('Colours', isForPrinter ? 'made for the printer: on a screen they look wrong' : null)}
      ${fact('File', files.length === 0 ? null : html`<bdi>${listed(files)}</bdi>`)}
    </dl>
  </article>`;
}

function sizesOf({ size, bleed, scale: { ratio } }: ReportPart): readonly (Html | null)[] {
  if (size === null) return [];
  const cut = { width: size.width - 2 * bleed, height: size.height - 2 * bleed };
  const real = { width: cut.width * ratio, height: cut.height * ratio };
  const trim = `${sizeOnPaper(cut)}; ${onPaper(bleed)} mm all round is bleed`;
  return [
    fact('On paper', sizeOnPaper(size)),
    fact('Cut to', bleed === 0 ? null : trim),
    fact('Real thing', realSize(real)),
  ];
}

function showFile({ part, pictures }: PartEntry, file: number): Html {
  const { scale, size, views, surfaces, files } = part;
  const isLayer = file > 0;
  const layer = `layer ${file + 1} of ${views.length}`;
  const name = isLayer ? `${part.name}, ${layer}` : part.name;
  const title = isLayer ? html`<h4>L${layer.slice(1)}: <bdi>${files[file] ?? ''}</bdi></h4>` : null;
  const picture = pictures[file] ?? null;
  if (size === null || picture === null)
    return html`${title}
      <p class="none">No picture here: ${views[file]?.why ?? 'nobody knows how large it is'}.</p>`;
  const { width, height } = size;
  const of = surfaces.length === 0 ? '' : `, of ${listed(surfaces)}`;
  const said = `${name}: ${kinds[part.kind]}${of}, ${sizeOnPaper(size)} on paper.`;
  const shrunk = Math.min(1, printed.width / width, printed.height / height);
  const scroll =
    width > narrow ? html` role="region" aria-label="${name} at its size" tabindex="0"` : null;
  const reduced =
    shrunk === 1
      ? null
      : html`<p class="printed">
          Too large for this paper: printed here at ${inDigits(100 * shrunk, 2)} % of its size, and
          its scale bar with it.
        </p>`;
  return html`${title}
    <div class="scroll true" ${scroll} style="--k:${shrunk}">
      <svg
        class="part"
        role="img"
        aria-label="${said}"
        viewBox="0 0 ${width} ${height}"
        style="--w:${width}mm;--h:${height}mm"
      >
        <use href="#${picture}" /></svg
      >${scaleBar(width, scale.ratio)}
    </div>
    ${reduced}`;
}
