import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { drawings } from '../drawing-seeds.js';
import { measuredWall } from '../measured-wall.js';

/** A command that writes, and what lies there before it is struck. */
export interface Victim {
  /** What it is chosen by. */
  readonly name: string;
  /** Makes what it reads. */
  readonly make: (folder: string) => Promise<void>;
  /** How the older files are made, and what is changed afterwards. */
  readonly before: {
    readonly lines: readonly (readonly string[])[];
    readonly change?: (folder: string) => void;
  };
  /** What is struck. */
  readonly words: readonly string[];
  /** Where each of its files stands for itself: others are all new, or none is, unless the command is killed. */
  readonly isApart?: true;
  /** Where it refuses to do again what is done. */
  readonly isOnce?: true;
}

const job = `gaugerod: 1
scale: N-UK
dpi: 150
surfaces:
  yard: { photo: wall.png, course: uk-metric }
parts:
  gable:  { surface: yard, size: 30x20mm, bleed: 1mm }
  girder: { relief: { section: UB 533x210x92, length: 3m }, colour: firebrick }
  front:  { drawing: front.svg, paint: { .shed: yard } }
sheets:
  page: { parts: [gable, girder], paper: A5 }
`;

async function make(folder: string): Promise<void> {
  const { photo, sidecar } = await measuredWall();
  writeFileSync(join(folder, 'wall.png'), photo);
  writeFileSync(join(folder, 'wall.surface.json'), sidecar);
  writeFileSync(join(folder, 'gable.png'), photo);
  for (const [index, name] of ['front.svg', 'shown.svg'].entries()) {
    writeFileSync(join(folder, name), drawings[index] ?? '');
  }
  writeFileSync(join(folder, 'works.yaml'), job);
}

// One that writes the same file before, by other words.
function oneFile(name: string, line: string, other: string, more = ''): Victim {
  const words = (text: string): readonly string[] => `${name} ${text} ${more}`.trim().split(/ +/);
  return { name, make, before: { lines: [words(other)] }, words: words(line) };
}

const apart = (victim: Victim): Victim => ({ ...victim, isApart: true });

const part = '--scale 1:148 --size 60x40mm';
const girder = '--section UB+533x210x92 --scale 1:148 --dpi 300 --length';

const written: readonly Victim[] = [
  oneFile('fill', `wall.png ${part} --dpi 300`, `wall.png ${part} --dpi 290`, '-o out.png'),
  oneFile('mend', 'wall.png', 'wall.png --no-even', '-o out.png'),
  oneFile('slim', 'shown.svg --dpi 150', 'shown.svg --dpi 140', '-o out.svg'),
  apart(
    oneFile(
      'dress',
      'front.svg --dpi 150',
      'front.svg --dpi 140',
      '--paint .shed=wall.png --scale 1:148 --link pictures -o out.svg',
    ),
  ),
  oneFile('relief', `${girder} 9m`, `${girder} 8m`, '-o out.png --layers'),
  oneFile('weather', 'wall.png --soot 0.5', 'wall.png --soot 0.4', '-o out.png'),
  oneFile(
    'sheet',
    'wall.png gable.png --dpi 40',
    'wall.png gable.png --dpi 41',
    '--paper A5 -o out.png',
  ),
  oneFile('extend', 'wall.png --times 2x2', 'wall.png --times 2x1.5', '-o out.png'),
  apart(
    oneFile(
      'measure',
      'wall.png --course uk-metric',
      'wall.png --course 80mm',
      '--save --overlay joints.png --page page.html',
    ),
  ),
  oneFile('inspect', 'wall.png', 'wall.png --axis x', '--picture out.png'),
  {
    name: 'reference',
    isOnce: true,
    make,
    before: { lines: [] },
    words: [
      ...['reference', '--add', 'dye-house', '--course', '76mm', '--tolerance', '1mm'],
      ...['--source', 'measured', '--file', 'own.yaml'],
    ],
  },
  // Without a report, which tells what was built this time.
  {
    name: 'build',
    isApart: true,
    make,
    before: {
      lines: [['build', 'works.yaml', '--jobs', '2']],
      change: (folder) => {
        const path = join(folder, 'works.yaml');
        const text = readFileSync(path, 'utf8');
        writeFileSync(path, text.replace('dpi: 150', 'dpi: 170').replace('uk-metric', '76mm'));
      },
    },
    words: ['build', 'works.yaml', '--jobs', '2'],
  },
];

/** Every command that writes. */
export const victims: readonly Victim[] = written.map(({ before, words, ...victim }) => ({
  ...victim,
  before: { ...before, lines: before.lines.map(spaced) },
  words: spaced(words),
}));

// The name of a section holds blanks.
function spaced(words: readonly string[]): readonly string[] {
  return words.map((word) => (word.startsWith('UB+') ? word.replaceAll('+', ' ') : word));
}
