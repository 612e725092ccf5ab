import type { Point, PointedPhoto, Span } from '@gaugerod/core/pure';
import { notesOf, type State } from './state.js';

/**
 * Write the command that measures as the page does.
 *
 * @param state - What was said.
 * @param told - Of the photo.
 * @returns One line, to be typed where the photo lies.
 */
export function toCommand(state: State, told: PointedPhoto): string {
  const { photo, focalGiven } = told;
  const { licence, credit } = notesOf(state);
  const notes = [
    ...(licence === null ? [] : ['--licence', licence]),
    ...(credit === null ? [] : ['--credit', credit]),
  ];
  const file = photo.file.startsWith('-') ? `./${photo.file}` : photo.file;
  const focal = focalGiven === null ? [] : ['--focal', focalGiven];
  const words = [
    'gaugerod',
    'measure',
    file,
    ...toOptions(state, told),
    ...focal,
    '--save',
    ...notes,
  ];
  return words.map(quote).join(' ');
}

function toOptions(state: State, { axis }: PointedPhoto): string[] {
  const { way, course, courses, whole, corners, known, size } = state;
  const upright = axis === 'x' ? ['--axis', 'x'] : [];
  switch (way) {
    case 'found':
      return ['--course', course, ...upright];
    case 'count':
      return [
        ...['--course', course, '--courses', courses.trim()],
        ...(whole ? [] : spansOf(state).slice(0, 2)),
        ...upright,
      ];
    case 'line':
      return linesOf(state);
    case 'corners':
      return [
        '--corners',
        corners.map(inText).join(' '),
        ...(known === 'size' ? ['--real-size', size] : lengthsOf(state)),
      ];
  }
}

function linesOf(state: State): string[] {
  const { thing, brick, section } = state;
  if (thing === 'own') return lengthsOf(state);
  return [`--${thing}`, thing === 'brick' ? brick : section, ...spansOf(state)];
}

const lengthsOf = ({ lines }: State): string[] =>
  lines.flatMap(({ span, length }) => ['--span', spanInText(span), '--length', length]);

const spansOf = ({ lines }: State): string[] =>
  lines.flatMap(({ span }) => ['--span', spanInText(span)]);

const inText = ({ x, y }: Point): string => `${x},${y}`;

/**
 * Write a line as a command takes it.
 *
 * @param span - Its ends.
 * @returns `x,y x,y`.
 */
export function spanInText(span: Span): string {
  const [from, to] = span;
  return `${inText(from)} ${inText(to)}`;
}

// Quotes that every shell knows, where they will do; bare, nothing that any of them reads in its own way.
function quote(word: string): string {
  if (/^[\w./:+-][\w./:+@-]*$/.test(word)) return word;
  if (!/["$`\\!%\r\n]/.test(word)) return `"${word}"`;
  return `'${word.replace(/[\r\n]+/g, ' ').replaceAll("'", String.raw`'\''`)}'`;
}
