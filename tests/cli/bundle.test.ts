import {
  cpSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  statSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { drawWall, encodePhoto } from '@gaugerod/fixtures';
import { expect, test } from 'vitest';
import { runGaugerod } from '../support/run-gaugerod.js';
import { tempFolder } from '../support/temp-folder.js';

const main = fileURLToPath(new URL('../../packages/cli/dist/main.js', import.meta.url));
const bin = fileURLToPath(new URL('../../packages/cli/bin/gaugerod.js', import.meta.url));

const house =
  '<svg xmlns="http://www.w3.org/2000/svg" width="30mm" height="20mm" viewBox="0 0 30 20"><path id="gable" fill="#aa3311" d="M0 20V8l15-8 15 8v12z"/></svg>';

const works = `gaugerod: 1
scale: OO
surfaces:
  yard-wall: { photo: wall.png, course: uk-metric }
parts:
  front: { surface: yard-wall, size: 30x20mm }
  girder: { relief: { section: ipe-200, length: 3m }, colour: firebrick }
sheets:
  page: { parts: [front, girder] }
`;

// Each breaks another rule of its form.
const broken = [
  ['works.yaml', works.replace('size', 'sise')],
  ['works.yaml', works.replace('scale: OO\n', '')],
  ['works.yaml', works.replace('photo: wall.png, ', '')],
  ['works.yaml', works.replace('{ section: ipe-200, length: 3m }', '3')],
  ['works.yaml', works.replace('[front, girder]', '[]')],
  ['works.yaml', works.replace('yard-wall:', '"yard/wall":')],
  ['works.yaml', works.replace('gaugerod: 1', 'gaugerod: 2')],
  ['gaugerod.config.yaml', 'region: Mars\n'],
  ['gaugerod.references.yaml', 'references: { yard-brick: { cours: 76mm } }\n'],
] as const;

// Every command, so that each finds what it loads when it is asked for.
const lines = [
  'measure wall.png --course uk-metric --overlay seen.png --save',
  'scale wall.png --scale OO',
  'inspect wall.png --picture seams.png',
  'mend wall.png --course uk-metric -o tile.png',
  'extend tile.png --course uk-metric --scale OO --size 30x20mm -o large.png',
  'fill wall.png --scale OO --size 30x20mm -o part.png',
  'fill wall.png --scale OO --outline house.svg#gable -o gable.tif',
  'fill wall.png --scale OO --size 30x20mm --weather settled -o old.svg',
  'weather wall.png --weather grimy -o grimy.png',
  'relief --section ipe-200 --scale OO --length 50mm -o girder.png',
  'dress house.svg --paint #aa3311=wall.png --scale OO -o dressed.svg',
  'slim dressed.svg -o slim.svg',
  'sheet part.png dressed.svg -o sheet.pdf',
  'build works.yaml --quiet',
  'reference brick',
  'fill nowhere.png --scale OO --size 30x20mm -o part.png',
  'fill wall.png --scale N --size 30x20mm -o part.png',
  'help weather',
  '--version',
];

async function runAll(command: string): Promise<readonly unknown[]> {
  const folder = tempFolder();
  const wall = drawWall({ bond: 'flemish', coursePx: 26, width: 420, height: 300, seed: 702 });
  writeFileSync(join(folder, 'wall.png'), await encodePhoto(wall.raster, { format: 'png' }));
  writeFileSync(join(folder, 'house.svg'), house);
  writeFileSync(join(folder, 'works.yaml'), works);
  const runs = lines.map((line) => [line, runGaugerod(line.split(' '), folder, command)]);
  // But for the hidden folder of what was built, which tells times.
  const names = readdirSync(folder, { encoding: 'utf8', recursive: true })
    .filter((name) => !name.startsWith('.') && statSync(join(folder, name)).isFile())
    .sort();
  const files = names.map((name) => [name, readFileSync(join(folder, name)).toString('base64')]);
  expect(names).toContain(join('out', 'page.pdf'));
  return [...runs, ...files];
}

test('the few files of the built command do as the modules that they were made of', async () => {
  expect(await runAll(bin)).toEqual(await runAll(main));
});

test('the built command refuses a file of another form in the words of the modules', () => {
  const runs = broken.map(([name, text]) => {
    const folder = tempFolder();
    writeFileSync(join(folder, name), text);
    if (name === 'gaugerod.references.yaml') {
      writeFileSync(join(folder, 'gaugerod.config.yaml'), `references: ${name}\n`);
    }
    const words = name === 'works.yaml' ? ['build', name] : ['reference', 'brick'];
    return [bin, undefined].map((command) => runGaugerod(words, folder, command));
  });
  for (const [built, modules] of runs) {
    expect(built).toMatchObject({ exit: expect.any(Number) as number, stdout: '' });
    expect(built?.stderr).toMatch(/^error: .*yaml:\d+:\d+: /);
    expect(built).toEqual(modules);
  }
});

test('where modules were built after the few files, the modules are run', () => {
  const folder = tempFolder();
  for (const part of ['cli/bin', 'cli/dist/bundle', 'core/dist']) {
    mkdirSync(join(folder, part), { recursive: true });
  }
  writeFileSync(join(folder, 'cli/package.json'), '{ "type": "module" }');
  const command = join(folder, 'cli/bin/gaugerod.js');
  cpSync(bin, command);
  const write = (path: string, text: string, seconds: number): void => {
    writeFileSync(join(folder, path), text);
    utimesSync(join(folder, path), seconds, seconds);
  };
  const runs = (): string => runGaugerod([], folder, command).stdout;
  write('cli/dist/main.js', 'console.log("modules")', 1000);
  expect(runs()).toBe('modules\n');
  // As it is packed: nothing says when tsc ran.
  write('cli/dist/bundle/main.js', 'console.log("few files")', 1000);
  expect(runs()).toBe('few files\n');
  write('cli/dist/.tsbuildinfo', '{}', 900);
  write('core/dist/.tsbuildinfo', '{}', 900);
  expect(runs()).toBe('few files\n');
  write('core/dist/.tsbuildinfo', '{}', 1100);
  expect(runs()).toBe('modules\n');
  write('cli/dist/bundle/main.js', 'console.log("few files")', 1200);
  expect(runs()).toBe('few files\n');
});
