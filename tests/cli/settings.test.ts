import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { drawWall, encodePhoto } from '@gaugerod/fixtures';
import sharp from 'sharp';
import { beforeAll, expect, test } from 'vitest';
import { plainBrick } from '../support/plain-brick.js';
import { type Run, runGaugerod, transcript } from '../support/run-gaugerod.js';
import { tempFolder } from '../support/temp-folder.js';

let photo: Buffer;

beforeAll(async () => {
  photo = await encodePhoto(drawWall(plainBrick).raster, { format: 'png' });
});

function folderWith(files: Readonly<Record<string, string>> = {}): string {
  const folder = tempFolder();
  writeFileSync(join(folder, 'wall.png'), photo);
  for (const [name, text] of Object.entries(files)) {
    mkdirSync(join(folder, name, '..'), { recursive: true });
    writeFileSync(join(folder, name), text);
  }
  return folder;
}

const config = 'gaugerod.config.yaml';
const own = '.config/gaugerod/config.yaml';

function run(line: string, folder: string): Run {
  return runGaugerod(line.split(' '), folder);
}

function done(line: string, folder: string): string {
  const { exit, stdout, stderr } = run(line, folder);
  expect([exit, stderr.replace(/^warning: .*\n/gm, '')]).toEqual([0, '']);
  return stdout;
}

test('an option goes before the file of the folder, that before the one of the user', async () => {
  const folder = folderWith({ [config]: 'dpi: 254\nscale: OO\n', [own]: 'dpi: 300\nregion: UK\n' });
  // 10 m at 4 mm to the foot, 304.8 mm, are 131.2 mm; at 254 dots to the inch 10 dots a mm.
  const set = done('scale 10m', folder);
  expect(set).toMatch(/^ {2}dots +1312 at 254 dpi$/m);
  expect(set).toContain('set in gaugerod.config.yaml: --scale OO, --dpi 254\n');
  const typed = done('scale 10m --dpi 508 --scale N', folder);
  // British N, 1:148: 67.57 mm, 20 dots each.
  expect(typed).toMatch(/^ {2}dots +1351 at 508 dpi$/m);
  expect(typed).toContain('set in .config/gaugerod/config.yaml: --region UK\n');
  const { settings } = JSON.parse(done('scale 10m --json', folder)) as { settings: unknown };
  expect(settings).toEqual([
    { name: 'scale', value: 'OO', file: config },
    { name: 'dpi', value: '254', file: config },
  ]);
  await expect(transcript(['scale', '10m'], run('scale 10m', folder))).toMatchFileSnapshot(
    'transcripts/set-scale.txt',
  );
});

test('--no-config leaves all of it out', () => {
  const folder = folderWith({ [config]: 'no yaml: [', [own]: 'region: UK\n' });
  expect(done('scale 1.48m --scale 1:148 --no-config', folder)).toMatch(/ at 600 dpi$/m);
  expect(run('scale 1m --scale N --no-config', folder).stderr).toContain('expected one of N-EU');
  const { exit, stderr } = run('scale 1m --scale 1:148', folder);
  expect(exit).toBe(1);
  expect(stderr).toMatch(/^error: gaugerod\.config\.yaml:1:\d+: [^\n]+\n/);
  expect(done('--help', folder)).toContain('--no-config');
});

test('what is set makes no command fail that does not take it', async () => {
  const folder = folderWith({
    [config]:
      'region: JP\nscale: N-UK\ndpi: 254\npaper: A4\nmargin: 4mm\nprinterX: 99\nprinterY: 99\nprinting: { printer: gone.json, sharpen: 1 }\n',
    'part.svg':
      '<svg xmlns="http://www.w3.org/2000/svg" width="9mm" height="9mm" viewBox="0 0 9 9"><rect width="4" height="4"/></svg>',
  });
  // Neither takes a size on paper from what is set, so that a tile stays as fine as its photo.
  for (const line of [
    'measure wall.png --course uk-metric',
    'inspect wall.png',
    'mend wall.png -o tile.png',
    'extend wall.png --times 2x1 -o large.png',
    'weather wall.png --course uk-metric --soot 0.5 -o sooty.png',
    'reference flemish',
  ]) {
    expect(done(line, folder)).not.toContain('set in');
  }
  expect(done('sheet --test-strip -o strip.pdf', folder)).toContain('--paper A4\n');
  expect(done('sheet part.svg -o page.pdf', folder)).toContain(
    'set in gaugerod.config.yaml: --paper A4, --margin 4mm, --printer-x 99, --printer-y 99\n',
  );
  expect(done('slim part.svg --report', folder)).toContain('--dpi 254\n');
  // Only what says which printer needs its profile.
  const relief = 'relief --section IPE-600 --length 2m';
  expect(done(`${relief} -o girder.svg`, folder)).not.toContain('gone.json');
  expect(done(`${relief} --dot-gain 18% -o girder.png`, folder)).not.toContain('gone.json');
  const { exit, stderr } = run(`${relief} -o other.png`, folder);
  expect([exit, stderr]).toEqual([
    1,
    'error: gone.json does not exist\nhint: --printer is set in gaugerod.config.yaml: give another, or --no-config\n',
  ]);
  // 2 m at 1:148 are 13.51 mm, 10 dots each.
  expect((await sharp(join(folder, 'girder.png')).metadata()).density).toBe(254);
});

test('a limit that is set makes no command fail that reads nothing of its kind', () => {
  const folder = folderWith({ [own]: 'mostPixels: 200M\nmostLinks: 3\n' });
  done('scale 1m --scale 1:148', folder);
  done('sheet --test-strip -o strip.pdf', folder);
});

test('a set value that a command cannot take is told with its file', () => {
  const folder = folderWith({ [config]: 'scale: N-UK\n' });
  const { exit, stderr } = run('scale 1m --region US', folder);
  expect(exit).toBe(2);
  expect(stderr).toBe(
    'error: expected a scale without a region, or of region US, for --scale, got "N-UK"\nhint: --scale is set in gaugerod.config.yaml: give another, or --no-config\n',
  );
});

test('a build takes what is set where its job lies, wherever it is begun', async () => {
  const folder = folderWith({
    'models/works.yaml':
      'gaugerod: 1\nscale: N-UK\nsurfaces: { a: { photo: wall.png, course: 75mm } }\nparts: { b: { surface: a, size: 25.4x25.4mm } }\n',
    'models/gaugerod.config.yaml': 'dpi: 100\n',
    [config]: 'dpi: 300\n',
  });
  writeFileSync(join(folder, 'models', 'wall.png'), photo);
  const told = done('build models/works.yaml --quiet', folder);
  expect((await sharp(join(folder, 'models/out/b.png')).metadata()).width).toBe(100);
  expect(told).toContain('set in models/gaugerod.config.yaml: dpi 100\n');
  const plain = JSON.parse(
    done('build models/works.yaml --no-config --dry-run --json', folder),
  ) as {
    settings?: unknown;
    steps: { why: string }[];
  };
  expect([plain.settings, plain.steps[0]?.why]).toEqual([undefined, 'its options changed']);
});

const dyeHouse = ['reference', '--add', 'dye-house', '--course', '76mm', '--tolerance', '1mm'];
const measured = ['--source', 'measured by me over 20 courses'];

test('a reference of one’s own is kept, shown, measured by, and taken out again', async () => {
  const folder = folderWith();
  const file = join(folder, '.config/gaugerod/references.yaml');
  const added = runGaugerod([...dyeHouse, '--length', '228mm', ...measured], folder);
  expect([added.exit, added.stderr]).toEqual([0, '']);
  expect(added.stdout).toContain(`kept in .config/gaugerod/references.yaml\n`);
  expect(readFileSync(file, 'utf8')).toContain('source: measured by me over 20 courses');
  await expect(transcript(['reference', 'dye'], run('reference dye', folder))).toMatchFileSnapshot(
    'transcripts/own-reference.txt',
  );
  // Courses of 25 px, as drawn, would be 76/25 mm a pixel.
  const { mmPerPx, reference } = JSON.parse(
    done('measure wall.png --course dye-house --json', folder),
  ) as { mmPerPx: { y: number }; reference: { id: string; source: string } };
  expect(Math.abs(mmPerPx.y / (76 / 25) - 1)).toBeLessThan(0.01);
  expect([reference.id, reference.source]).toEqual([
    'dye-house',
    'measured by me over 20 courses; tolerance as given',
  ]);
  const span = ['measure', 'wall.png', '--brick', 'dye-house', '--span', '0.5,9.5 76.5,9.5'];
  expect(runGaugerod(span, folder).stdout).toMatch(/^ {2}mm per pixel +3,/m);
  expect(run('measure wall.png --course dye-house --no-config', folder).exit).toBe(2);
  expect(runGaugerod([...dyeHouse, ...measured], folder)).toMatchObject({ exit: 1 });
  const gone = done('reference --remove dye-house', folder);
  expect(gone).toContain('taken out of .config/gaugerod/references.yaml\n');
  expect(run('measure wall.png --course dye-house', folder).exit).toBe(2);
  expect(readdirSync(join(folder, '.config/gaugerod'))).toEqual(['references.yaml']);
});

const job = `gaugerod: 1
scale: OO
surfaces: { wall: { photo: tall.png, course: uk-metric } }
parts: { front: { surface: wall, size: 30x20mm } }
`;

test.each([
  'measure tall.png --course uk-metric',
  'scale tall.png --scale OO --course uk-metric',
  'inspect tall.png --course uk-metric',
  'mend tall.png --course uk-metric -o out.png',
  'extend tall.png --course uk-metric --times 2x1 -o out.png',
  'weather tall.png --course uk-metric -o out.png',
  'fill tall.png --scale OO --course uk-metric --size 30x20mm -o out.png',
  'relief tall.png --scale OO --course uk-metric --profile plate --depth 300mm --length 1m -o out.png',
  'dress plan.svg --paint #ffff00=tall.png --scale OO --course uk-metric -o out.svg',
  'build works.yaml',
])("bricks named as what they are not could be of one's own format: %s", async (line) => {
  // DF is 250 x 62.5 mm with joints (DIN 4172), four courses long; so is a brick of 200 x 50 mm.
  const wall = drawWall({ format: 'de-df', coursePx: 25, width: 640, height: 480, seed: 6 });
  const brick = 'course: 50mm, tolerance: 0.5mm, length: 192mm, width: 92mm, joint: 8mm';
  const folder = folderWith({
    '.config/gaugerod/references.yaml': `references: { chimney-brick: { ${brick}, source: by tape } }\n`,
    'works.yaml': job,
    'plan.svg':
      '<svg xmlns="http://www.w3.org/2000/svg" width="30mm" height="20mm" viewBox="0 0 30 20"><path fill="#ffff00" d="M1 1h28v18h-28z"/></svg>',
  });
  writeFileSync(join(folder, 'tall.png'), await encodePhoto(wall.raster, { format: 'png' }));
  const { exit, stderr } = run(line, folder);
  expect(stderr).toContain('likelier chimney-brick, de-df');
  expect(exit).toBe(0);
});

test('another file keeps them where it is told, or set', () => {
  const folder = folderWith({ [config]: 'references: ours/bricks.yaml\n' });
  mkdirSync(join(folder, 'ours'));
  const file = join('ours', 'bricks.yaml');
  expect(runGaugerod([...dyeHouse, ...measured, '--file', file], folder).exit).toBe(0);
  expect(done('reference dye', folder)).toContain('dye-house (your own)');
  expect(done(`reference dye --file ${file} --no-config`, folder)).toContain('(your own)');
  expect(done('measure wall.png --course dye-house', folder)).toMatch(/^ {2}reference +dye-house/m);
  writeFileSync(join(folder, file), 'references: { dye-house: { course: 76mm } }\n');
  const { exit, stderr } = run('measure wall.png --course uk-metric', folder);
  expect(exit).toBe(1);
  expect(stderr).toMatch(/^error: ours\/bricks\.yaml:1:15: references\.dye-house needs tolerance/);
});

test.each([
  [['reference', '--add', 'dye-house', '--course', '76mm', ...measured], 'expected --tolerance'],
  [dyeHouse, 'expected --source, where its sizes are from, beside --add, got none'],
  [['reference', '--add', 'uk-metric'], "expected an id that is not the catalogue's for --add"],
  [['reference', '--add', '75mm'], 'expected an id of small letters'],
  [['reference', '--course', '76mm'], 'expected --add beside --course, got none'],
  [['reference', 'uk', '--remove', 'dye-house'], 'expected no word beside --remove, got "uk"'],
  [['reference', '--add', 'a', '--remove', 'b'], 'expected --add or --remove, got both'],
  [[...dyeHouse, ...measured, '--no-config'], 'expected --file, where'],
  [[...dyeHouse, '--width', '9mm', ...measured], 'expected a length beside it for --width'],
  [
    [...dyeHouse.slice(0, -1), '80mm', ...measured],
    'expected less than the course for --tolerance',
  ],
])('%j is a wrong command, and nothing is written', (words, told) => {
  const folder = tempFolder();
  const { exit, stdout, stderr } = runGaugerod(words, folder);
  expect([exit, stdout]).toEqual([2, '']);
  expect(stderr).toContain(`error: ${told}`);
  expect(readdirSync(folder)).toEqual([]);
});
