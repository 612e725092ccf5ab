import { readdirSync } from 'node:fs';
import { expect, test } from 'vitest';
import { runGaugerod, runHere, transcript } from '../support/run-gaugerod.js';
import { tempFolder } from '../support/temp-folder.js';

const fill = ['fill', 'wall.png', '--course', '75mm', '--scale', '1:148', '-o', 'front.png'];

const extend = ['extend', 'wall.png', '-o', 'tile.png'];

const relief = ['relief', '-o', 'girder.png', '--scale', '1:148', '--length', '9.9m'];
const plate = ['--profile', 'plate', '--depth', '1m'];

const twoSpans = ['--span', '1,1 9,9', '--span', '1,5 9,5'];

test.each([
  ['no-command', []],
  ['unknown-command', ['fil', 'wall.png']],
  ['unknown-option', ['fill', 'wall.png', '--sise', '20x20mm', '--scale', '1:148', '-o', 'a.png']],
  ['no-photo', ['measure']],
  ['two-photos', ['mend', 'wall.png', 'roof.png', '-o', 'tile.png']],
  ['standard-input', ['measure', '-', '--course', '75mm']],
  ['standard-output', ['mend', 'wall.png', '-o', '-']],
  ['no-output', ['mend', 'wall.png']],
  ['no-value', ['measure', 'wall.png', '--course']],
  ['no-size', fill],
  ['two-sizes', [...fill, '--size', '9x9mm', '--real-size', '5x5m']],
  ['size-and-outline', [...fill, '--size', '9x9mm', '--outline', 'house.svg']],
  [
    'outline-as-jpeg',
    ['fill', 'wall.png', '--scale', '1:148', '--outline', 'house.svg', '-o', 'a.jpg'],
  ],
  ['svg-of-png', [...fill, '--size', '9x9mm', '--svg', 'pattern']],
  ['unknown-corner', [...fill, '--size', '9x9mm', '--corner', 'left']],
  ['strength', [...fill, '--size', '9x9mm', '--soot', '1.5']],
  ['weather-name', ['weather', 'wall.png', '--weather', 'ruined', '-o', 'a.png']],
  ['ledge', ['weather', 'wall.png', '--ledge', '5,5', '-o', 'a.png']],
  ['upright-ledge', [...fill, '--size', '9x9mm', '--soot', '1', '--ledge', '5,5 5,9']],
  ['ledge-without-weather', [...fill, '--size', '9x9mm', '--ledge', '1,5 5,5']],
  [
    'damp-in-tile',
    ['weather', 'wall.png', '--course', '75mm', '--damp', '1', '--repeat', 'both', '-o', 'a.png'],
  ],
  ['dot-gain', [...fill, '--size', '9x9mm', '--dot-gain', '40%']],
  [
    'dot-gain-beside-printer',
    [...fill, '--size', '9x9mm', '--dot-gain', '9%', '--printer', 'my.json'],
  ],
  ['ink-limit', [...fill, '--size', '9x9mm', '--ink-limit', '240']],
  ['sharpen', [...fill, '--size', '9x9mm', '--sharpen', '-1']],
  [
    'relief-printer-of-svg',
    [
      'relief',
      '-o',
      'girder.svg',
      ...relief.slice(3),
      '--profile',
      'plate',
      '--depth',
      '1m',
      '--printer',
      'my.json',
    ],
  ],
  ['sheet-nothing', ['sheet', '-o', 'page.pdf']],
  ['strip-beside-part', ['sheet', 'front.png', '--test-strip', '-o', 'strip.pdf']],
  ['strip-beside-gap', ['sheet', '--test-strip', '--gap', '5mm', '-o', 'strip.pdf']],
  ['strip-beside-limit', ['sheet', '--test-strip', '--most-links', '3', '-o', 'strip.pdf']],
  [
    'strip-photo-links',
    ['sheet', '--strip-photo', 'scan.png', '--most-links', '3', '-o', 'my.printer.json'],
  ],
  ['limit-of-length', ['scale', '9.9m', '--scale', 'N-UK', '--most-pixels', '1M']],
  [
    'fill-limit-without-outline',
    ['fill', 'wall.png', '--scale', 'N-UK', '--size', '2x2mm', '--most-depth', '9', '-o', 'a.png'],
  ],
  [
    'relief-limit-without-photo',
    [
      ...'relief --profile plate --depth 1m --length 6m --scale 1:87 -o a.png'.split(' '),
      '--most-seconds',
      '9',
    ],
  ],
  ['strip-output-kind', ['sheet', '--test-strip', '-o', 'strip.jpg']],
  ['strip-photo-output', ['sheet', '--strip-photo', 'scan.png', '-o', 'page.pdf']],
  ['ambiguous-scale', ['scale', '9.9m', '--scale', 'N']],
  ['unknown-scale', ['scale', '9.9m', '--scale', 'nonsense']],
  ['unknown-course', ['measure', 'wall.png', '--course', 'uk-metrik']],
  ['wrong-length', ['scale', '12furlongs', '--scale', '1:148']],
  ['span-without-length', ['measure', 'wall.png', '--span', '1,1 9,9']],
  ['spans-without-lengths', ['measure', 'wall.png', ...twoSpans, '--length', '1m']],
  ['section-without-span', ['measure', 'wall.png', '--section', 'IPE 200']],
  ['two-references', ['measure', 'wall.png', '--course', '75mm', '--section', 'IPE 200']],
  ['unknown-section', ['measure', 'wall.png', '--section', 'UB 203x133x26']],
  ['unknown-brick', ['measure', 'wall.png', '--brick', 'uk-metrik']],
  ['focal-without-reference', ['measure', 'wall.png', '--focal', '28mm']],
  [
    'no-rectify-beside-span',
    ['measure', 'wall.png', '--span', '1,1 9,9', '--length', '1m', '--no-rectify'],
  ],
  ['axis-beside-distance', ['measure', 'wall.png', '--distance', '5m', '--axis', 'x']],
  ['courses-without-course', ['measure', 'wall.png', '--courses', '8']],
  ['extend-no-size', ['extend', 'wall.png', '-o', 'tile.png']],
  ['extend-two-sizes', [...extend, '--times', '2x2', '--real-size', '5x5m']],
  ['extend-size-without-scale', [...extend, '--size', '50x50mm']],
  ['extend-dpi-without-scale', [...extend, '--times', '2x2', '--dpi', '600']],
  ['inspect-dpi-alone', ['inspect', 'wall.png', '--dpi', '300']],
  ['extend-once', [...extend, '--times', '1x1']],
  ['output-kind', [...extend.slice(0, 2), '--times', '2x2', '-o', 'tile.bmp']],
  ['mend-output-kind', ['mend', 'wall.png', '-o', 'tile.bmp']],
  ['relief-unknown-section', [...relief, '--section', 'UB 533x210x93']],
  ['relief-no-section', relief],
  ['relief-empty-photo', ['relief', '', ...relief.slice(1), ...plate]],
  [
    'relief-web-alone',
    [...relief, '--profile', 'i', '--depth', '1m', '--flange', '20mm', '--web', '9mm'],
  ],
  ['relief-unknown-profile', [...relief, '--profile', 'plate-girdle', '--depth', '1m']],
  ['relief-missing-size', [...relief, '--profile', 'plate-girder', '--depth', '1m']],
  ['relief-size-beside-section', [...relief, '--section', 'IPE 600', '--flange', '20mm']],
  ['relief-size-of-another', [...relief, '--profile', 'plate', '--depth', '1m', '--root', '9mm']],
  ['relief-lines-touch', [...relief, '--section', 'UB 127x76x13']],
  ['relief-few-dots', [...relief, '--section', 'IPE 600', '--dpi', '30']],
  ['relief-too-long', [...relief.slice(0, -1), '200m', '--section', 'IPE 600']],
  ['relief-negative-strength', [...relief, '--section', 'IPE 600', '--strength', '-0.5']],
  ['relief-rivets-of-beam', [...relief, '--section', 'IPE 600', '--rivets', '4in']],
  ['relief-rivets-touch', [...relief, ...plate, '--rivets', '30mm']],
  ['relief-cover-too-long', [...relief, '--section', 'IPE 600', '--cover', '12m']],
  ['relief-cover-of-plate', [...relief, ...plate, '--cover', '2m']],
  ['relief-light-of-colour', [...relief, ...plate, '--no-even']],
  ['relief-unknown-light', [...relief, '--section', 'IPE 600', '--light', 'north']],
  [
    'relief-colour-and-photo',
    ['relief', 'rust.jpg', ...relief.slice(1), ...plate, '--colour', 'red'],
  ],
  ['relief-unknown-colour', [...relief, ...plate, '--colour', 'rust']],
  ['unknown-method', ['mend', 'wall.png', '--method', 'magic', '-o', 'tile.png']],
] as const)('%s: the command was wrong, and it says how', async (name, words) => {
  const folder = tempFolder();
  const run = runGaugerod(words, folder);
  expect([run.exit, run.stdout]).toEqual([2, '']);
  expect(run.stderr).toMatch(/^error: [^\n]+\n(hint: [^\n]+\n)?$/);
  expect(readdirSync(folder)).toEqual([]);
  await expect(transcript(words, run)).toMatchFileSnapshot(`transcripts/wrong-${name}.txt`);
});

// Every number a person or a script may mistype, in every place that takes one.
const notNumbers = ['', ' ', '0', '-1', '-0', '1e309', 'NaN', 'Infinity', '\uff11\uff12', '0x10'];
const more = ['1/0', '1 2', '--5', '1\n2', 'null', '\u{1d7d9}', '12mmm', '9'.repeat(400)];

test.each([
  ['--dpi', ['1e6', '999999999', '1,5'], [...fill, '--size', '9x9mm']],
  ['--size', ['20', '20x', '0x0mm', '20x-20mm', '1e9x1e9mm', '1000000x1000000mm'], fill],
  ['--real-size', ['20', '0x0m', '1e12x1e12mm', '9000x9000m'], fill],
  ['--bleed', ['-2mm', '1e9mm', '20m', '1,5'], [...fill, '--size', '9x9mm']],
  ['--datum', ['1', '1,2,3', 'a,b', 'NaN,0', '1e309,0'], [...fill, '--size', '9x9mm']],
  ['--scale', ['1:0', '1:-148', '0:148', '1:1e12', '1:', ':148', '1:2:3'], ['scale', '1m']],
  ['--course', ['-75mm', '__proto__', 'constructor', '../x'], ['measure', 'wall.png']],
  ['--courses', ['1.5', '1e9', '4x'], ['measure', 'wall.png', '--course', '75mm']],
  ['--distance', ['0mm', '-5m', '5m+-6m'], ['measure', 'wall.png']],
  ['--focal', ['2mm', '3m'], ['measure', 'wall.png', '--distance', '5m']],
  [
    '--length',
    ['0mm', '1:148', '1e300m', '1m+-', '1m+-2m', '+-3mm'],
    ['measure', 'wall.png', '--span', '1,1 9,1'],
  ],
  ['--span', ['1,1', '1,1 2', 'a,b c,d', '-5,1 9,1'], ['measure', 'wall.png', '--length', '1m']],
  ['--keep', ['101', '1e9', '50%x'], ['mend', 'wall.png', '-o', 'tile.png']],
  ['--times', ['4', '4x', '0x0', '4x0.5', '101x1', '4x4x4', '-4x4', '4,4'], extend],
  ['--seed', ['-1', '1.5', '4294967296', '1e3'], [...extend, '--times', '2x2']],
  ['--axis', ['z', 'X Y'], ['inspect', 'wall.png']],
] as const)('%s takes what is meant and nothing else', async (flag, own, words) => {
  // 0 is no bleed at all, and as good a seed as any.
  const texts = [...notNumbers, ...more, ...own].filter(
    (text) => !((flag === '--bleed' || flag === '--seed') && text === '0'),
  );
  for (const text of texts) {
    // In this process: a few hundred of their own would take a minute.
    const { exit, stdout, stderr } = await runHere([...words, flag, text]);
    expect([text, exit, stdout]).toEqual([text, 2, '']);
    expect(stderr).toMatch(/^error: [^\n]+\n(hint: [^\n]+\n)?$/);
    expect(stderr).toContain(flag);
  }
});

test('N needs a region, and a region settles it', () => {
  // 1:148 (British N), 1:160 (NEM 010, NMRA S-1.2), 1:150 (Japan).
  const folder = tempFolder();
  const bare = runGaugerod(['scale', '1m', '--scale', 'N'], folder);
  for (const choice of ['N-UK', 'N-EU', 'N-JP', '148', '160', '150']) {
    expect(bare.stderr).toContain(choice);
  }
  const { stdout } = runGaugerod(
    ['scale', '1.6m', '--scale', 'N', '--region', 'EU', '--json'],
    folder,
  );
  expect(JSON.parse(stdout)).toMatchObject({ printMm: 10, scale: { ratio: 160 } });
});

test.each(['France', '', 'UKK'])(
  'the region %j is refused with those there are',
  async (region) => {
    const words = ['scale', '1m', '--scale', 'N', '--region', region];
    const { exit, stderr } = await runHere(words);
    expect([exit, stderr.split('\n', 1)[0]]).toEqual([
      2,
      `error: expected one of UK, EU, US, JP, FR for --region, got "${region}"`,
    ]);
  },
);

test('a scale of one region is not asked for in another', async () => {
  const { exit, stderr } = await runHere(['scale', '1m', '--scale', 'N-UK', '--region', 'us']);
  expect([exit, stderr]).toEqual([
    2,
    'error: expected a scale without a region, or of region US, for --scale, got "N-UK"\nhint: gaugerod reference scale lists the names\n',
  ]);
  expect((await runHere(['scale', '1m', '--scale', 'N-UK', '--region', 'uk'])).exit).toBe(0);
});

test('an option is given once', async () => {
  const { exit, stdout, stderr } = await runHere(['mend', 'a.png', '-o', 'b.png', '-o', 'c.png']);
  expect([exit, stdout]).toEqual([2, '']);
  expect(stderr).toBe(
    'error: expected --output once, got "b.png" and "c.png"\nhint: gaugerod mend --help shows what can be given\n',
  );
});

test.each([
  [['scale', '8,5m', '--scale', '1:148'], 'a length whose decimals take a point, such as 8.5m,'],
  [[...fill, '--size', '9,9x4,2mm'], 'a size whose decimals take a point, such as 9.9x4.2mm,'],
  [[...fill, '--bleed', '1,5mm'], 'a length whose decimals take a point, such as 1.5mm,'],
])('%j: a comma is answered with a point', async (words, expected) => {
  const { exit, stderr } = await runHere(words);
  expect(exit).toBe(2);
  expect(stderr).toContain(`error: expected ${expected} for `);
});

test('with --json the failure is an object on standard output as well', () => {
  const folder = tempFolder();
  const { exit, stdout, stderr } = runGaugerod(['scale', '9.9m', '--scale', 'N', '--json'], folder);
  expect(exit).toBe(2);
  expect(stderr).toMatch(/^error: /);
  const { error } = JSON.parse(stdout) as { error: Record<string, unknown> };
  expect(Object.keys(error)).toEqual(['code', 'message', 'hint']);
  expect(stderr).toContain(String(error['message']));
});

test('the size of a piece is not taken for that of a rectangle in the photo', async () => {
  const rectangle = ['--corners', '1,1 90,1 90,80 1,80', '--real-size', '1x1m'];
  const words = ['fill', 'wall.png', ...rectangle, '--scale', '1:148', '-o', 'front.png'];
  const { exit, stderr } = await runHere(words);
  expect(exit).toBe(2);
  expect(stderr).toContain('expected --course or a --span beside --corners, got none');
  expect(stderr).toContain('--save');
});
