import {
  type CatalogueEntry,
  type CatalogueKind,
  findCourse,
  formatLength,
  type PointedPhoto,
  searchCatalogue,
} from '@gaugerod/core/pure';
import { element, make } from './element.js';

/** What is looked for in the catalogue. */
export type Wanted = 'course' | 'brick' | 'section';

/** A field with the catalogue behind it. */
export interface Choices {
  /**
   * Show what is wanted and what was chosen.
   *
   * @param wanted - What to look for.
   * @param text - As typed or chosen.
   */
  readonly update: (wanted: Wanted, text: string) => void;
}

const kinds: Readonly<Record<Wanted, readonly CatalogueKind[]>> = {
  course: ['brick', 'block', 'roofing', 'timber'],
  brick: ['brick', 'block'],
  section: ['section'],
};

/** The size that is held against the picture, by its word in the catalogue. */
const sizes: Readonly<Record<Wanted, string>> = {
  course: 'course',
  brick: 'length',
  section: 'depth',
};

const labels: Readonly<Record<Wanted, string>> = {
  course: 'What the courses are: search, or type a height such as 75mm',
  brick: 'Which brick or block: search',
  section: 'Which rolled section: search',
};

/** So many are listed at a time. */
const mostListed = 40;

/**
 * Make the field that searches the catalogue.
 *
 * @param told - Of the photo: what its courses could be comes first.
 * @param onText - Told of what is typed or chosen.
 * @returns The field.
 */
export function createChoices(told: PointedPhoto, onText: (text: string) => void): Choices {
  const field = element('choice', HTMLInputElement);
  const list = element('choices', HTMLUListElement);
  const note = element('choice-note', HTMLParagraphElement);
  let wanted: Wanted = 'course';
  let explained: string | null = null;
  let at = -1;
  let typed = false;

  const listed = (): CatalogueEntry[] => {
    const entries = (query: string): CatalogueEntry[] =>
      searchCatalogue(query, told.own).filter(
        ({ kind, sizesMm }) => kinds[wanted].includes(kind) && sizesMm[sizes[wanted]] !== undefined,
      );
    const found = entries(typed ? field.value : '');
    const rank = ({ id }: CatalogueEntry): number => {
      const place = told.likely.findIndex((likely) => likely.id === id);
      return place < 0 ? told.likely.length : place;
    };
    const sorted = wanted === 'course' ? found.sort((a, b) => rank(a) - rank(b)) : found;
    return sorted.slice(0, mostListed);
  };
  const close = (): void => {
    list.hidden = true;
    at = -1;
    field.setAttribute('aria-expanded', 'false');
    field.removeAttribute('aria-activedescendant');
  };
  const take = (id: string): void => {
    typed = false;
    field.value = id;
    onText(id);
    close();
  };
  const open = (): void => {
    const options = listed().map((entry, i) => {
      const option = toOption(entry, wanted, told);
      option.id = `choice-${i}`;
      option.addEventListener('pointerdown', (event) => {
        event.preventDefault();
      });
      option.addEventListener('click', () => {
        take(entry.id);
      });
      option.dataset['id'] = entry.id;
      return option;
    });
    list.replaceChildren(...options);
    list.hidden = options.length === 0;
    at = -1;
    field.setAttribute('aria-expanded', String(!list.hidden));
    field.removeAttribute('aria-activedescendant');
  };
  const step = (by: number): void => {
    if (list.hidden) {
      open();
      return;
    }
    const options = [...list.children];
    at = (at + by + options.length) % options.length;
    for (const [i, option] of options.entries()) {
      option.setAttribute('aria-selected', String(i === at));
    }
    field.setAttribute('aria-activedescendant', `choice-${at}`);
    options[at]?.scrollIntoView({ block: 'nearest' });
  };
  field.addEventListener('focus', () => {
    field.select();
    open();
  });
  field.addEventListener('click', () => {
    if (list.hidden) open();
  });
  field.addEventListener('blur', close);
  field.addEventListener('input', () => {
    typed = true;
    onText(field.value);
    open();
  });
  field.addEventListener('keydown', (event) => {
    if (event.key === 'ArrowDown') step(1);
    else if (event.key === 'ArrowUp') step(-1);
    else if (event.key === 'Escape') close();
    else if (event.key === 'Enter') {
      const id = list.querySelector<HTMLElement>(`#choice-${at}`)?.dataset['id'];
      if (id === undefined) close();
      else take(id);
    } else return;
    event.preventDefault();
  });
  return {
    update: (now, text) => {
      if (field.value !== text) field.value = text;
      if (now === wanted && text === explained) return;
      wanted = now;
      explained = text;
      element('choice-label', HTMLLabelElement).textContent = labels[wanted];
      note.textContent = explain(wanted, text, told);
    },
  };
}

function toOption(entry: CatalogueEntry, wanted: Wanted, told: PointedPhoto): HTMLLIElement {
  const option = make('li', { role: 'option', 'aria-selected': 'false' });
  const likely = told.likely.find(({ id }) => id === entry.id);
  const size = entry.sizesMm[sizes[wanted]] ?? 0;
  const chance =
    wanted !== 'course' || likely === undefined
      ? []
      : [make('em', {}, `${Math.round(100 * likely.probability)} % by its shape`)];
  option.append(
    make('b', {}, entry.name),
    make('span', {}, formatLength(size)),
    ...chance,
    make(
      'small',
      {},
      [
        ...(entry.name === entry.id ? [] : [entry.id]),
        ...(entry.own ? ['your own'] : []),
        entry.source,
      ].join(' · '),
    ),
  );
  return option;
}

// Of a name that is taken, what it is and where its size comes from.
function explain(wanted: Wanted, text: string, { own }: PointedPhoto): string {
  const entry = searchCatalogue(text, own).find(
    ({ kind, id }) => id === text.trim() && kinds[wanted].includes(kind),
  );
  if (entry !== undefined) {
    const size = formatLength(entry.sizesMm[sizes[wanted]] ?? 0);
    return `${entry.name}, ${sizes[wanted]} ${size}: ${entry.source}`;
  }
  if (wanted !== 'course' || text.trim() === '') return '';
  try {
    const { name, source } = findCourse(text, 'course', own);
    return `${name}: ${source}`;
  } catch {
    // What is wrong with it stands in the result's place.
    return '';
  }
}
