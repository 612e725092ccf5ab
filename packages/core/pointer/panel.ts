import {
  inDigits,
  type Measurement,
  type Point,
  type PointedPhoto,
  type PointedWay,
  largestWindow,
  type Size,
  sidecarPath,
  toSidecarJson,
} from '@gaugerod/core/pure';
import { type Choices, createChoices, type Wanted } from './choices.js';
import { toCommand } from './command.js';
import { element, make } from './element.js';
import type { Grid } from './grid.js';
import { createLinesForm } from './lines-form.js';
import { type Line, type State, type Thing, within } from './state.js';
import type { Weighed } from './weigh.js';
import { budgetInWords, inSize, scaleInWords, unsureInWords } from './words.js';

/** What the fields beside the photo may ask of the page. */
export interface Teller {
  /**
   * Tell what was said so far.
   *
   * @returns It.
   */
  readonly state: () => State;
  /**
   * Say something else.
   *
   * @param change - What.
   */
  readonly change: (change: Partial<State>) => void;
  /**
   * Say something to whoever cannot see the page.
   *
   * @param text - What.
   */
  readonly say: (text: string) => void;
  /** Draw anew, for something that is only shown or hidden. */
  readonly show: () => void;
}

/** The fields beside the photo. */
export interface Panel {
  /**
   * Show what was said and what it measures.
   *
   * @param weighed - What it measures.
   * @param grid - What is laid over the photo, or would be.
   */
  readonly update: (weighed: Weighed, grid: Grid | null) => void;
}

const leads: Readonly<Record<PointedWay, string>> = {
  line: 'Drag the two ends to something whose size you know: a gate, a door, a sleeper. The longer it is, the surer the scale.',
  count:
    'Drag the two ends to bed joints, and count the courses between them. The grid goes along.',
  corners: 'Drag the corners to those of a door, a window or a wall: it may be seen at a slant.',
  found:
    'The courses of this photo were found. Say what they are, and see whether the size is right.',
};

/**
 * Make the fields beside the photo.
 *
 * @param told - Of the photo.
 * @param teller - What they may ask.
 * @returns The fields.
 */
export function createPanel(told: PointedPhoto, teller: Teller): Panel {
  const { change, state } = teller;
  const choices = createChoices(told, (text) => {
    change({ [wantedOf(state())]: text });
  });
  const lines = createLinesForm({
    change: (index, line) => {
      const { lines: all, whole } = state();
      change({
        lines: all.map((old, i) => (i === index ? { ...old, ...line } : old)),
        whole: whole && (index !== 0 || line.span === undefined),
      });
    },
    remove: (index) => {
      const { lines: all, whole } = state();
      const left = all.filter((_, i) => i !== index);
      change({ lines: left, whole: whole && index !== 0, chosen: { of: 'line', line: 0, end: 0 } });
    },
  });
  listenToFields(told, teller);
  keepIt(teller);
  element('way-found', HTMLLabelElement).hidden = told.unit === null;
  element('axis-note', HTMLParagraphElement).textContent =
    told.axis === 'x'
      ? 'Courses that stand upright, counted across.'
      : 'Courses that lie level. For upright ones, such as boards on end, write the page with --axis x.';
  return {
    update: (weighed, grid) => {
      const now = state();
      showFields(now, choices);
      lines.update(now, weighed.ok ? (weighed.value.spans ?? []) : []);
      showAnswer(weighed, told, grid);
      showKeeping(now, weighed, told);
    },
  };
}

function wantedOf({ way, thing }: State): Wanted {
  return way === 'line' && thing !== 'own' ? thing : 'course';
}

type TextKey = 'size' | 'courses' | 'licence' | 'credit';

function listenToFields(told: PointedPhoto, { state, change, show }: Teller): void {
  for (const radio of document.querySelectorAll<HTMLInputElement>('input[name=way]')) {
    radio.addEventListener('change', () => {
      const way = radio.value as PointedWay;
      change({ way, chosen: { of: way === 'corners' ? 'corner' : 'line', line: 0, end: 0 } });
    });
  }
  for (const key of ['size', 'courses', 'licence', 'credit'] satisfies TextKey[]) {
    const field = element(key, HTMLInputElement);
    field.addEventListener('input', () => {
      change({ [key]: field.value });
    });
  }
  const thing = element('thing', HTMLSelectElement);
  thing.addEventListener('change', () => {
    change({ thing: thing.value as Thing });
  });
  const known = element('known', HTMLSelectElement);
  known.addEventListener('change', () => {
    change({ known: known.value as State['known'] });
  });
  const count = (by: number) => () => {
    const now = Number(state().courses);
    change({ courses: String(Math.max(1, (Number.isInteger(now) ? now : 0) + by)) });
  };
  element('fewer', HTMLButtonElement).addEventListener('click', count(-1));
  element('more', HTMLButtonElement).addEventListener('click', count(1));
  element('another', HTMLButtonElement).addEventListener('click', () => {
    const all = state().lines;
    change({
      lines: [...all, besides(all, told.photo)],
      chosen: { of: 'line', line: all.length, end: 0 },
    });
  });
  element('grid', HTMLInputElement).addEventListener('change', show);
  element('joints', HTMLInputElement).addEventListener('change', show);
  element('panel', HTMLFormElement).addEventListener('submit', (event) => {
    event.preventDefault();
  });
}

// A line of its own, a little to the side of the last.
function besides(lines: readonly Line[], { width, height }: Size<number>): Line {
  const [from, to] = lines.at(-1)?.span ?? [
    { x: 0, y: 0 },
    { x: 0, y: 0 },
  ];
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  // Of its own length a sixth, and no less than a finger parts.
  const share = Math.max(1 / 6, 24 / Math.max(1, Math.hypot(dx, dy)));
  const beside = ({ x, y }: Point): Point => ({
    x: within(x - share * dy, width),
    y: within(y + share * dx, height),
  });
  return { span: [beside(from), beside(to)], length: '' };
}

function showFields(state: State, choices: Choices): void {
  const { way, thing, known } = state;
  for (const radio of document.querySelectorAll<HTMLInputElement>('input[name=way]')) {
    radio.checked = radio.value === way;
  }
  element('lead', HTMLParagraphElement).textContent = leads[way];
  const show = (id: string, shown: boolean): void => {
    element(id, HTMLElement).hidden = !shown;
  };
  show('of-corners', way === 'corners');
  show('of-size', known === 'size');
  show('of-thing', way === 'line');
  show('of-catalogue', way === 'count' || way === 'found' || (way === 'line' && thing !== 'own'));
  show('of-count', way === 'count');
  show('another', way === 'line' || (way === 'corners' && known === 'line'));
  const wanted = wantedOf(state);
  choices.update(wanted, state[wanted]);
  for (const key of ['size', 'courses', 'licence', 'credit'] satisfies TextKey[]) {
    const field = element(key, HTMLInputElement);
    if (field.value !== state[key]) field.value = state[key];
  }
  element('thing', HTMLSelectElement).value = thing;
  element('known', HTMLSelectElement).value = known;
}

function showAnswer(weighed: Weighed, told: PointedPhoto, grid: Grid | null): void {
  const fault = element('fault', HTMLParagraphElement);
  fault.hidden = weighed.ok;
  fault.textContent = weighed.ok ? '' : weighed.message;
  fault.classList.toggle('wanting', !weighed.ok && weighed.wanting);
  element('result', HTMLElement).hidden = !weighed.ok;
  const warnings = weighed.ok ? weighed.warnings : [];
  element('warnings', HTMLUListElement).replaceChildren(
    ...warnings.map(({ message }) => make('li', {}, message)),
  );
  element('grid-label', HTMLSpanElement).textContent =
    grid === null ? 'lay a grid over the photo' : `lay ${grid.says} over the photo`;
  if (!weighed.ok) return;
  const { value } = weighed;
  element('figure', HTMLOutputElement).textContent = `${scaleInWords(value)} a pixel`;
  element('unsure', HTMLSpanElement).textContent = `give or take ${unsureInWords(value)}`;
  element('facts', HTMLElement).replaceChildren(
    ...facts(value, told).flatMap(([word, says]) => [make('dt', {}, word), make('dd', {}, says)]),
  );
}

function facts(value: Measurement, { photo }: PointedPhoto): [string, string][] {
  const { rectification, mmPerPx, lattice, reference } = value;
  const { width, height } = rectification === null ? photo : largestWindow(rectification, photo);
  const shows = inSize({ width: width * mmPerPx.x, height: height * mmPerPx.y });
  return [
    ['held against', reference.name],
    ...(lattice === null
      ? []
      : [['a course is', `${inDigits(lattice.course)} px`] satisfies [string, string]]),
    ['made up of', budgetInWords(value)],
    ['confidence', `${Math.floor(100 * value.confidence)} %`],
    ['the photo shows', shows],
  ];
}

function showKeeping(state: State, weighed: Weighed, told: PointedPhoto): void {
  const name = sidecarPath(told.photo.file);
  const found = state.way === 'found';
  const tile = told.tile && weighed.ok && weighed.value.rectification === null;
  const byProgram = found || tile;
  const save = element('save', HTMLButtonElement);
  save.textContent = `Save ${name}`;
  save.disabled = !weighed.ok;
  save.hidden = byProgram;
  element('save-note', HTMLParagraphElement).textContent = found
    ? 'What was found in the photo is kept by this command.'
    : tile
      ? 'The photo seems to be a tile: this command looks whether it is one, and keeps that too.'
      : `Lay it beside ${told.photo.file}: every other command then takes the size from it.`;
  const command = element('command', HTMLTextAreaElement);
  command.value = weighed.ok ? toCommand(state, told) : '';
  element('command-note', HTMLParagraphElement).hidden = !command.value.includes("'");
  element('copy', HTMLButtonElement).disabled = !weighed.ok;
}

/**
 * Write what the page measures as the text of a surface file.
 *
 * @param measurement - As reckoned.
 * @param told - Of the photo.
 * @param notes - What else is kept.
 * @returns The text, as the library writes it.
 */
export function toSurfaceFile(
  measurement: Measurement,
  told: PointedPhoto,
  notes: Pick<PointedPhoto, 'licence' | 'credit'>,
): string {
  const { photo } = told;
  const plain = told.plain && measurement.rectification === null && measurement.lattice === null;
  return toSidecarJson({ photo, measurement, plain, ...notes });
}

function keepIt({ say }: Teller): void {
  const command = element('command', HTMLTextAreaElement);
  const copy = element('copy', HTMLButtonElement);
  copy.addEventListener('click', () => {
    command.select();
    navigator.clipboard.writeText(command.value).then(
      () => {
        say('the command was copied');
        copy.textContent = 'Copied';
        setTimeout(() => (copy.textContent = 'Copy'), 2000);
      },
      () => {
        // It is selected, for whoever copies it by hand.
        say('the command is selected: copy it');
      },
    );
  });
}
