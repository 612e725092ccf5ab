import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { commands } from '../../../../packages/cli/dist/commands/list.js';
import { run } from '../../../../packages/cli/dist/run.js';
import type { Random } from '@gaugerod/fixtures';
import { drawings } from '../drawing-seeds.js';
import { workFolder } from '../in-folder.js';
import { strangeTexts } from '../mutate.js';
import { measuredWall } from '../measured-wall.js';
import { promise, type Reader } from '../reader.js';

const folder = workFolder();

const lines = [
  'measure wall.png --course uk-metric --json',
  'measure wall.png --span 10,10+210,10 --length 600mm --overlay out.png',
  'measure wall.png --corners 0,0+100,0+100,80+0,80 --real-size 300x240mm',
  'scale 9.9m --scale N-UK --dpi 600',
  'scale wall.png --scale 1:76.2 --dpi 300',
  'inspect wall.png --axis both --picture out.png',
  'mend wall.png -o out.png --axis x --method cut --keep 60%',
  'extend wall.png -o out.png --times 2x2 --seed 3',
  'fill wall.png --scale 1:148 --size 20x15mm --dpi 100 --bleed 1mm --datum 3,2 -o out.png',
  'fill wall.png --scale 1:148 --outline front.svg#gable --dpi 100 --weather grimy --corner right -o out.tif',
  'fill wall.png --scale 1:148 --real-size 3x2m --dpi 100 --string-course 5,2 --rise 50mm --light above-left -o out.svg',
  'weather wall.png --soot 0.4 --damp 0.3 --moss 0.2 --ledge 10,24+500,24 --foot 600mm --facing north --seed 4 -o out.png',
  'relief --section UB+533x210x92 --length 2m --scale 1:148 --dpi 200 --colour #7a543e --rivets 100mm --copies 2 --gap 1mm -o out.png',
  'relief wall.png --profile plate-girder --depth 900mm --flange 30mm --leg 90mm --web 12mm --width 350mm --stiffeners 1.2m --length 4m --scale 1:76.2 --dpi 200 -o out.svg',
  'relief --profile frame --depth 1.5m --length 900mm --panes 2x4 --colour #c9c6bb --scale 1:76.2 --dpi 200 -o out.png --layers',
  'dress front.svg --paint #b5432e=wall.png --paint .shed=wall.png --scale 1:148 --dpi 100 --soot 0.3 --relief #gable=plate -o out.svg',
  'dress front.svg --paint #b5432e=wall.png --scale 1:148 --dpi 100 --link pictures -o out.svgz',
  'slim front.svg -o out.svg --dpi 300 --link pictures --keep-clipped',
  'slim front.svg --report --find .',
  'sheet wall.png front.svg --paper A5 --margin 5mm --gap 7mm --copies 2 --layers 2 --mirror --dpi 100 -o out.pdf',
  'sheet wall.png --bleed 1mm --overlap 8mm --printer-x 99.4 --dot-gain 12% --ink-limit 240% --dpi 100 -o out.png',
  'sheet --test-strip -o out.pdf',
  'reference N --region UK',
];

const inputs = ['front.svg', 'wall.png', 'wall.surface.json'] as const;
const before = new Map<string, Buffer>();

async function makeFolder(): Promise<void> {
  const wall = await measuredWall();
  const made = [Buffer.from(drawings[0] ?? ''), wall.photo, wall.sidecar];
  inputs.forEach((name, i) => {
    writeFileSync(join(folder, name), made[i] ?? '');
    before.set(name, made[i] ?? Buffer.alloc(0));
  });
  mkdirSync(join(folder, 'home'));
  process.chdir(folder);
  Object.assign(process.env, {
    HOME: join(folder, 'home'),
    XDG_CONFIG_HOME: join(folder, 'home', '.config'),
  });
}

interface Printed {
  readonly exit: number;
  readonly stdout: string;
  readonly stderr: string;
}

async function runHere(words: readonly string[]): Promise<Printed> {
  const printed = { stdout: '', stderr: '' };
  const restores = (['stdout', 'stderr'] as const).map((name) => {
    const write = process[name].write.bind(process[name]);
    process[name].write = (text: string | Uint8Array): boolean => {
      printed[name] += String(text);
      return true;
    };
    return () => (process[name].write = write);
  });
  try {
    return { exit: await run(words), ...printed };
  } finally {
    for (const restore of restores) restore();
  }
}

function check({ exit, stdout, stderr }: Printed, isJson: boolean): void {
  promise([0, 1, 2].includes(exit), `an exit code, not ${exit}`);
  promise(!stderr.includes('failed in a way it should not'), stderr);
  const told = stderr.split('\n').slice(0, -1);
  promise(
    told.every((line) => /^(error|hint|warning): ./.test(line)),
    `lines that say what they are: ${stderr}`,
  );
  promise(!/[\0-\x09\x0b-\x1f\x7f\u202e]/.test(stderr), 'nothing that draws on a terminal');
  promise(
    (exit === 0) === !stderr.includes('error: '),
    `an error line where it fails: ${exit} ${stderr}`,
  );
  promise(
    exit !== 0 || !/\bNaN\b|undefined|\[object|Infinity/.test(stdout),
    `numbers in words: ${stdout}`,
  );
  if (isJson) JSON.parse(stdout);
}

const leftovers = (): string[] =>
  readdirSync(folder).filter((name) => !['home', ...inputs].includes(name as never));

const flags = (
  await Promise.all(commands.map(async ({ load }) => Object.values((await load()).options)))
)
  .flat()
  .map(({ flag }) => flag);

// Each with whether it takes a value.
const options = [...new Set(flags)].map((flag) => ({
  name: /--[a-z-]+/.exec(flag)?.[0] ?? '',
  isSwitch: !/[<[]/.test(flag),
}));

const kinds = [
  ...[
    '0',
    '1',
    '2',
    '0.5',
    '1000',
    '5mm',
    '3m',
    '20x30mm',
    '3,4',
    '1,2 3,4',
    '12%',
    'auto',
    'x',
    'left',
    '#gable',
    'plate',
    'N',
    'N-UK',
  ],
  ...[
    'wall.png',
    'front.svg',
    'front.svg#gable',
    'missing.png',
    'home',
    '.',
    '-',
    '--',
    '',
    ' ',
    'out.png',
    'out.pdf',
    'out.xyz',
    '-5mm',
  ],
];

// A word of the line as somebody else would have it.
function changeWords(line: Buffer, random: Random): Buffer {
  const words = line.toString().split('\n');
  const oneOf = <Item>(items: readonly Item[]): Item | undefined =>
    items[Math.floor(random.next() * items.length)];
  for (let count = 1 + Math.floor(3 * random.next()); count > 0; count--) {
    const at = 1 + Math.floor(random.next() * (words.length - 1));
    const value = (random.next() < 0.6 ? oneOf(kinds) : oneOf(strangeTexts)) ?? '';
    const { name = '', isSwitch = true } = oneOf(options) ?? {};
    const way = random.next();
    if (way < 0.4) words[at] = value;
    else if (way < 0.8) words.push(name, ...(isSwitch ? [] : [value]));
    else words.splice(at, 1);
  }
  return Buffer.from(words.join('\n'));
}

/** What is typed: words of the command line, a line each; where + stands, a blank. */
export const typed: Reader = {
  name: 'arguments',
  tried: 30,
  isSlow: true,
  change: changeWords,
  words: [
    '\n--json',
    '\n--quiet',
    '\n-o\nout.png',
    '\nwall.png',
    '\nfront.svg',
    'mm',
    'x',
    ',',
    '%',
    ':',
    '=',
    ' ',
    '#',
    '.',
  ],
  seeds: async () => {
    if (!existsSync(join(folder, 'home'))) await makeFolder();
    return lines.map((line) => Buffer.from(line.replaceAll(' ', '\n').replaceAll('+', ' ')));
  },
  read: async (bytes) => {
    // Nothing outside the folder is written, whatever is made up.
    const words = bytes.toString().replace(/[/\\]/g, '_').split('\n');
    // These go on for as long as somebody looks.
    if (words.includes('build') || words.some((word) => /^--(watch|help)/.test(word))) return;
    const printed = await runHere(words);
    try {
      check(printed, words.includes('--json'));
      if (printed.exit !== 0)
        promise(leftovers().length === 0, `nothing is left: ${leftovers().join()}`);
      for (const [name, was] of before)
        promise(readFileSync(join(folder, name)).equals(was), `${name} stays as it is`);
    } finally {
      for (const name of leftovers()) rmSync(join(folder, name), { recursive: true });
      for (const [name, was] of before) writeFileSync(join(folder, name), was);
    }
  },
};
