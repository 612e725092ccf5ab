import { inDigits, uncertaintyInWords } from '../units/in-digits.js';
import { html, type Html } from './html.js';
import { count, listed, realSize, scaleInWords, sizeOnPaper } from './in-words.js';
import type {
  ReportFound,
  ReportPicture,
  ReportSurface,
  ReportTiling,
  ReportView,
} from './report-content.js';

const methods: Readonly<Record<string, string>> = {
  courses: 'courses of known height',
  count: 'courses that were counted',
  span: 'a length marked on the photo',
  rectangle: 'a rectangle of known size',
  section: 'a rolled section of known depth',
  distance: 'the distance of the camera: an estimate',
};

const sources: Readonly<Record<string, string>> = {
  fit: 'how evenly the courses lie',
  marks: 'the points marked',
  reference: 'the size taken as known',
  perspective: 'slant and perspective',
  lens: 'the lens',
  distance: 'focal length and distance',
};

/**
 * Write one line of a list of facts.
 *
 * @param term - What it is about.
 * @param said - What is the case, or null where there is nothing to say.
 * @returns The line, or null.
 */
export function fact(term: string, said: Html | string | null): Html | null {
  return said === null
    ? null
    : html`<div>
        <dt>${term}</dt>
        <dd>${said}</dd>
      </div>`;
}

/**
 * Show a picture, or say why there is none.
 *
 * @param view - Which.
 * @param alt - What somebody is told who does not see it.
 * @returns It.
 */
function showView(view: ReportView, alt: string): Html {
  if (view.picture === null) return html`<p class="none">No picture here: ${view.why}.</p>`;
  return showPicture(view.picture, alt);
}

function showPicture({ base64, width, height }: ReportPicture, alt: string): Html {
  return html`<img
    src="data:image/jpeg;base64,${base64}"
    width="${width}"
    height="${height}"
    alt="${alt}"
    decoding="async"
  />`;
}

/**
 * Write what is known of a surface.
 *
 * @param surface - Which.
 * @param number - Its number in the report, from 1.
 * @returns Its entry.
 */
export function renderSurface(surface: ReportSurface, number: number): Html {
  const { name, photo, joined, view, found, tilings, usedBy } = surface;
  return html`<article class="entry surface" aria-labelledby="s${number}">
    <h3 id="s${number}"><span class="no">S${number}</span> <bdi>${name}</bdi></h3>
    <div class="pair">
      <figure>
        ${showView(view, altOf(surface))}
        <figcaption>What was found on <bdi>${photo}</bdi>, drawn over it.</figcaption>
      </figure>
      <dl class="facts">
        ${found === null ? fact('Photo', html`<bdi>${photo}</bdi>`) : factsOf(found, photo)}
        ${fact('Joined with', joined.length === 0 ? null : html`<bdi>${listed(joined)}</bdi>`)}
        ${fact('Used by', usedBy.length === 0 ? 'nothing that was built' : html`<bdi>${listed(usedBy)}</bdi>`)}
      </dl>
    </div>
    <div class="tilings">${tilings.map((tiling) => showTiling(name, tiling))}</div>
  </article>`;
}

function altOf({ photo, found }: ReportSurface): string {
  if (found === null) return `The photo ${photo}.`;
  const { beds, leftOut, reference } = found;
  const joints =
    beds === null ? 'what the measurement rests on' : `${count(beds, 'bed joint')} as found`;
  const without = leftOut === 0 ? '' : `, ${count(leftOut, 'place')} left out shaded`;
  return `The photo ${photo} with ${joints} drawn over it${without}; measured by ${reference.name}, ${within(found)}.`;
}

function within({ uncertaintyPercent }: ReportFound): string {
  return `true to ± ${uncertaintyInWords(uncertaintyPercent)} %`;
}

function factsOf(found: ReportFound, photo: string): readonly (Html | null)[] {
  const { mmPerPx, reference, method, coursePx, bond, confidence, budget } = found;
  const { x, y } = mmPerPx;
  const pixel = x === y ? inDigits(x, 4) : `${inDigits(x, 4)} across, ${inDigits(y, 4)} down`;
  const made = budget.map(
    ({ source, percent }) => `${sources[source] ?? source} ${uncertaintyInWords(percent)} %`,
  );
  return [
    fact(
      'Photo',
      html`<bdi>${photo}</bdi>, ${found.photo.width} × ${found.photo.height}
        px${found.isStraightened ? ', straightened' : ''}`,
    ),
    fact('Shows', realSize(found.shows)),
    fact(
      'Measured by',
      html`${methods[method] ?? method}: ${reference.name}, ${inDigits(reference.sizeMm, 5)} mm
        <span class="soft">(${reference.source})</span>`,
    ),
    fact(
      'Scale of photo',
      `${pixel} mm to a pixel${coursePx === null ? '' : `, a course ${inDigits(coursePx, 4)} px`}`,
    ),
    fact(
      'Uncertainty',
      html`<strong>${within(found)}</strong> (k = 2):
        ${uncertaintyInWords(found.uncertaintyPercent)} mm in 100 mm of
        card${made.length === 0 ? null : html`<br /><span class="soft">made of (k = 1): ${made.join(', ')}</span>`}`,
    ),
    fact('Confidence', `${Math.floor(confidence * 100)} in 100 answers like this one are right`),
    fact('Bond', bond),
  ];
}

// What is a thumbnail on paper shows neither lines nor what comes again.
const [least, widest] = [72, 168];

function timesShown(width: number): number {
  return Math.max(1, Math.ceil(least / width));
}

function showTiling(name: string, { scale, dpi, repeat, view }: ReportTiling): Html {
  const at = `${scaleInWords(scale)} at ${inDigits(dpi, 6)} dpi`;
  const times = repeat === null ? 1 : timesShown(3 * repeat.width);
  const sizes =
    repeat === null
      ? ''
      : ` One repeat is ${sizeOnPaper(repeat)} on paper, all nine ${sizeOnPaper({ width: 3 * repeat.width, height: 3 * repeat.height })}.`;
  const wide =
    repeat === null ? null : html` style="--w:${Math.min(widest, 3 * repeat.width * times)}mm"`;
  return html`<figure class="tiling" ${wide}>
    ${showView(view, `${name} at ${at}, three repeats across and three down: look for lines where repeats meet and for anything that catches the eye nine times.`)}
    <figcaption><bdi>${name}</bdi>, three by three repeats, ${at}.${sizes}</figcaption>
  </figure>`;
}
