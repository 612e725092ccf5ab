import {
  type CourseReference,
  findBrick,
  findCourse,
  findSection,
  type MarkedReference,
  type MeasuredMarked,
  measureMarked,
  type OtherReference,
  type Outcome,
  ownCourses,
  parseRealSize,
  parseStatedLength,
  type PointedPhoto,
  toKnownSpan,
  type Warning,
  weighFormat,
} from '@gaugerod/core/pure';
import { notesOf, type State } from './state.js';

/** What places that were marked measure, or what is still wanted. */
export type Weighed =
  | {
      readonly ok: true;
      /** What the library makes of them. */
      readonly value: MeasuredMarked;
      /** What should be known of it. */
      readonly warnings: readonly Warning[];
    }
  | {
      readonly ok: false;
      /** What is wanted, or wrong. */
      readonly message: string;
      /** Whether nothing is wrong, and something only wanted. */
      readonly wanting: boolean;
    };

/** Something that was not said yet. */
class Wanting extends Error {}

function said(text: string, what: string): string {
  if (text.trim() === '') throw new Wanting(what);
  return text;
}

// Half a word is no mistake yet.
function choose<Value>(find: (text: string) => Value, text: string, { what, or }: Choice): Value {
  if (text.trim() === '') throw new Wanting(`Choose ${what}${or}.`);
  try {
    return find(text);
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    throw new Wanting(`“${text}” is not in the catalogue: choose ${what} from the list${or}.`);
  }
}

interface Choice {
  readonly what: string;
  readonly or: string;
}

const courses: Choice = { what: 'what the courses are', or: ', or type their height such as 75mm' };

/**
 * Measure a photo by what a person marked and said, as the library does.
 *
 * @param state - What was said.
 * @param told - Of the photo.
 * @returns The measurement, or what is wanted for one.
 */
export function weigh(state: State, told: PointedPhoto): Weighed {
  try {
    notesOf(state);
    const outcome = state.way === 'found' ? weighFound(state, told) : weighMarks(state, told);
    return outcome.ok ? outcome : { ok: false, message: outcome.message, wanting: false };
  } catch (error) {
    if (error instanceof Wanting) return { ok: false, message: error.message, wanting: true };
    if (error instanceof RangeError) return { ok: false, message: error.message, wanting: false };
    throw error;
  }
}

function weighMarks(state: State, told: PointedPhoto): Outcome<MeasuredMarked, string> {
  const { photo, focal, slant, axis, look } = told;
  return measureMarked(photo, toReference(state, told.own), {
    slant,
    ...(focal !== null && { focal }),
    axis,
    own: ownCourses(told.own),
    look: () => look,
  });
}

function weighFound(
  { course }: State,
  { unit, own }: PointedPhoto,
): Outcome<MeasuredMarked, string> {
  if (unit === null) throw new Wanting('No courses were found in this photo.');
  const reference = chooseCourse(course, own);
  return { ok: true, value: weighFormat(unit, reference), warnings: unit.warnings };
}

function chooseCourse(course: string, own: PointedPhoto['own']): CourseReference {
  return choose((text) => findCourse(text, 'course', own), course, courses);
}

function toReference(state: State, own: PointedPhoto['own']): MarkedReference {
  const { way, corners, size, known } = state;
  if (way === 'count') return toCount(state, own);
  if (way !== 'corners') return toLines(state, own);
  if (known === 'size') {
    const real = parseRealSize(said(size, 'Say how wide and how high it is, such as 1.2x2.1m.'));
    return { kind: 'corners', corners, known: { kind: 'size', size: real } };
  }
  const { spans } = toSpans(state);
  return { kind: 'corners', corners, known: { kind: 'spans', spans, reference: null } };
}

function toCount(
  { course, courses: counted, whole, lines }: State,
  own: PointedPhoto['own'],
): Extract<OtherReference, { kind: 'count' }> {
  const reference = chooseCourse(course, own);
  const count = said(counted, 'Count the courses on the line.').trim();
  if (!/^[1-9]\d{0,3}$/.test(count)) {
    throw new RangeError(`expected a whole number of courses, got "${count}"`);
  }
  const span = whole ? null : (lines[0]?.span ?? null);
  return { kind: 'count', course: reference, courses: Number(count), span };
}

function toLines(state: State, own: PointedPhoto['own']): MarkedReference {
  const { thing, brick, section, lines } = state;
  const spans = lines.map(({ span }) => span);
  switch (thing) {
    case 'own':
      return toSpans(state);
    case 'brick': {
      const reference = choose((text) => findBrick(text, 'brick', own), brick, {
        what: 'the brick',
        or: '',
      });
      return { kind: 'brick', reference, spans };
    }
    case 'section': {
      const reference = choose((text) => findSection(text), section, {
        what: 'the section',
        or: '',
      });
      return { kind: 'section', reference, spans };
    }
  }
}

function toSpans({ lines }: State): Extract<OtherReference, { kind: 'spans' }> {
  const which = (i: number): string => (lines.length > 1 ? `line ${i + 1}` : 'the line');
  const spans = lines.map(({ span, length }, i) =>
    toKnownSpan(
      span,
      parseStatedLength(said(length, `Say how long ${which(i)} really is, such as 3.6m.`)),
    ),
  );
  return { kind: 'spans', spans };
}
