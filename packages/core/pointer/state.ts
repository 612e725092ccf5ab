import {
  parseNote,
  type Point,
  type PointedPhoto,
  type PointedWay,
  type Span,
} from '@gaugerod/core/pure';

/** A line on the photo. */
export interface Line {
  /** Its ends. */
  readonly span: Span;
  /** Its real length, as typed. */
  readonly length: string;
}

/** What lines are: of lengths that are typed, along a brick, or across a rolled section. */
export type Thing = 'own' | 'brick' | 'section';

/** A place that can be moved: an end of a line, or a corner. */
export interface Mark {
  /** Of what. */
  readonly of: 'line' | 'corner';
  /** Which line; 0 for a corner. */
  readonly line: number;
  /** Which end, or which corner. */
  readonly end: number;
}

/** All that a person has said. Texts are as typed. */
export interface State {
  /** What is known. */
  readonly way: PointedWay;
  /** One or more; the first is the one that courses are counted on. */
  readonly lines: readonly Line[];
  /** What the lines are. */
  readonly thing: Thing;
  /** A brick's id. */
  readonly brick: string;
  /** A section's name. */
  readonly section: string;
  /** What courses are: an id or a height. */
  readonly course: string;
  /** How many of them. */
  readonly courses: string;
  /** Whether they were counted over all of the photo: until the first line is moved. */
  readonly whole: boolean;
  /** Of a rectangle. */
  readonly corners: readonly Point[];
  /** What is known of the rectangle. */
  readonly known: 'size' | 'line';
  /** Its width and height. */
  readonly size: string;
  /** Terms of use. */
  readonly licence: string;
  /** Whose photo. */
  readonly credit: string;
  /** Which mark is under the loupe. */
  readonly chosen: Mark;
}

/**
 * Begin with what the page was told.
 *
 * @param told - Of the photo.
 * @returns Where a person goes on from.
 */
export function startState(told: PointedPhoto): State {
  const { start, licence, credit } = told;
  const { way, lines, brick, section, course, courses, whole, corners, size } = start;
  return {
    way,
    lines,
    thing: section !== '' ? 'section' : brick !== '' ? 'brick' : 'own',
    brick,
    section,
    course,
    courses,
    whole,
    corners,
    known: size === '' && lines[0]?.length !== '' ? 'line' : 'size',
    size,
    licence: licence ?? '',
    credit: credit ?? '',
    chosen: { of: way === 'corners' ? 'corner' : 'line', line: 0, end: 0 },
  };
}

/**
 * Take the notes that are kept with a measurement.
 *
 * @param state - What was said.
 * @returns Each as the command takes it, or null where it is empty.
 * @throws RangeError when one is more than a note.
 */
export function notesOf(state: State): Pick<PointedPhoto, 'licence' | 'credit'> {
  const note = (name: 'licence' | 'credit'): string | null =>
    state[name].trim() === '' ? null : parseNote(state[name], name);
  return { licence: note('licence'), credit: note('credit') };
}

/**
 * List the places that can be moved.
 *
 * @param state - What was said.
 * @returns Every one that counts, in the order in which a keyboard goes through them.
 */
export function listMarks(state: State): Mark[] {
  const { way, lines, corners, known } = state;
  const ends = (count: number): Mark[] =>
    lines.slice(0, count).flatMap((_, line) => [
      { of: 'line', line, end: 0 },
      { of: 'line', line, end: 1 },
    ]);
  switch (way) {
    case 'found':
      return [];
    case 'count':
      return ends(1);
    case 'line':
      return ends(lines.length);
    case 'corners': {
      const all = corners.map((_, end): Mark => ({ of: 'corner', line: 0, end }));
      return known === 'line' ? [...all, ...ends(lines.length)] : all;
    }
  }
}

/**
 * Tell whether two marks are the same.
 *
 * @param a - One.
 * @param b - The other.
 * @returns Whether they move together.
 */
export function isSameMark(a: Mark, b: Mark): boolean {
  return a.of === b.of && a.line === b.line && a.end === b.end;
}

/**
 * Tell where a mark stands.
 *
 * @param state - What was said.
 * @param mark - Of it.
 * @returns In pixels of the photo.
 */
export function placeOf(state: State, mark: Mark): Point {
  const { lines, corners } = state;
  const place = mark.of === 'line' ? lines[mark.line]?.span[mark.end] : corners[mark.end];
  return place ?? { x: 0, y: 0 };
}

/** Of a pixel: finer than anybody points, and what a command says in few figures. */
const finest = 100;

/**
 * Bring a place along one axis into the photo, to a hundredth of a pixel.
 *
 * @param value - As wished.
 * @param most - Columns or rows of the photo.
 * @returns The nearest there is.
 */
export function within(value: number, most: number): number {
  return Math.round(finest * Math.min(most, Math.max(0, value))) / finest;
}

/**
 * Put a mark elsewhere.
 *
 * @param state - What was said.
 * @param mark - Of it.
 * @param to - Where; brought into the photo, and rounded to a hundredth of a pixel.
 * @param size - The photo.
 * @param size.width - Columns.
 * @param size.height - Rows.
 * @returns What of the state is changed.
 */
export function moveMark(
  state: State,
  mark: Mark,
  to: Point,
  size: { readonly width: number; readonly height: number },
): Partial<State> {
  const { lines, corners } = state;
  const place = { x: within(to.x, size.width), y: within(to.y, size.height) };
  if (mark.of === 'corner') {
    return { chosen: mark, corners: corners.map((old, i) => (i === mark.end ? place : old)) };
  }
  const moved = lines.map(({ span: [from, end], length }, i): Line => {
    if (i !== mark.line) return { span: [from, end], length };
    return { span: mark.end === 0 ? [place, end] : [from, place], length };
  });
  return { chosen: mark, lines: moved, whole: state.whole && mark.line !== 0 };
}

/**
 * Name a mark.
 *
 * @param mark - To be moved.
 * @param count - How many lines there are.
 * @returns As people say it.
 */
export function nameMark(mark: Mark, count: number): string {
  const { of, line, end } = mark;
  if (of === 'corner') return `corner ${end + 1}`;
  const which = count > 1 ? ` of line ${line + 1}` : '';
  return `${end === 0 ? 'first' : 'second'} end${which}`;
}
