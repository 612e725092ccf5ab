import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { buildJob, TextureError } from '@gaugerod/core';
import { expect, test } from 'vitest';
import { tempFolder } from '../../../support/temp-folder.js';

const good = `gaugerod: 1
scale: N-UK
surfaces:
  brick: { photo: wall.png, course: uk-metric }
parts:
  gable: { surface: brick, size: 20x12mm }
  side:  { surface: brick, size: 10x12mm, datum: [20, 0] }
sheets:
  page: { parts: [gable, side] }
`;

async function fault(text: string | Uint8Array): Promise<string> {
  const folder = tempFolder();
  writeFileSync(join(folder, 'wall.png'), 'no picture, and never looked at');
  writeFileSync(join(folder, 'works.yaml'), text);
  const error: unknown = await buildJob(join(folder, 'works.yaml'), { dryRun: true }).then(
    () => null,
    (cause: unknown) => cause,
  );
  if (!(error instanceof TextureError)) return String(error);
  return [error.message.replaceAll(`${folder}/`, ''), error.hint].filter(Boolean).join(' | ');
}

test('a job of the right form is planned', async () => {
  expect(await fault(good)).toBe('null');
});

// Line and column are counted by hand, from 1.
test.each([
  [
    'size: 20x12mm',
    'siez: 20x12mm',
    '6:28: unknown key "siez" in parts.gable | did you mean size?',
  ],
  [
    'size: 20x12mm',
    'size: 20x12mm, printing: { printer: ink.json }',
    '6:64: ink.json does not exist',
  ],
  [
    'size: 20x12mm',
    'size: 20x12mm, printing: { dotGain: 18 }',
    '6:64: expected 0 to 24 % (such as 12%)',
  ],
  [
    'surface: brick, size: 20',
    'releif: { length: 2m }, size: 20',
    '6:12: unknown key "releif" in parts.gable | did you mean relief?',
  ],
  [
    'uk-metric',
    'uk-metric, extend: { seed: 3 }',
    '4:56: expected one of a size on paper, a real size and times the photo for size, got nothing',
  ],
  [
    'uk-metric',
    'uk-metric, extend: { times: 2x2, size: 9x9mm }',
    '4:76: expected one of a size on paper, a real size and times the photo for size, got "2 of them"',
  ],
  [
    'uk-metric',
    'uk-metric, extend: { times: 2by2 }',
    '4:65: expected times across and down, 1 to 100 each, such as 4x3 for times, got "2by2"',
  ],
  [
    'uk-metric',
    'uk-metric, extend: { times: 2x2, photo: other.png }',
    '4:70: unknown key "photo" in surfaces.brick.extend | did you mean photos?',
  ],
  [
    'uk-metric',
    'uk-metric, extend: { times: 2x2, photos: [other.png] }',
    '4:79: other.png does not exist',
  ],
  [
    'uk-metric',
    'uk-metric, extend: { times: 2x2, photos: [../other.png] }',
    '4:79: "../other.png" leads out of the job\'s folder | --anywhere allows it',
  ],
  [
    'uk-metric',
    'uk-metric, mend: { axis: x }, extend: { times: 2x2 }',
    '4:54: expected no mend beside extend, got both | what is extended repeats already',
  ],
  [
    'course: uk-metric',
    'corners: "0,0 9,0 9,9 0,9", rectangle: 1x1m, extend: { times: 2x2 }',
    '4:38: expected no corners beside extend, got both | measure each photo that way',
  ],
  [
    'surface: brick, size: 20x12mm',
    'drawing: wall.png, slim: false',
    '6:37: expected paint beside slim: false, got neither',
  ],
  [
    'surface: brick, size: 20x12mm',
    'drawing: wall.png, slim: { find: lost }',
    '6:45: lost does not exist',
  ],
  [
    'surface: brick, size: 20x12mm',
    'drawing: wall.png, slim: { find: ../lost }',
    '6:45: "../lost" leads out of the job\'s folder | --anywhere allows it',
  ],
  [
    'surface: brick, size: 20x12mm',
    'drawing: wall.png, slim: { keepCliped: true }',
    '6:39: unknown key "keepCliped" in parts.gable.slim | did you mean keepClipped?',
  ],
  [
    'surface: brick, size: 20x12mm',
    'drawing: wall.png, slim: 5',
    '6:37: expected true or false or keys and what they hold for parts.gable.slim',
  ],
  ['size: 20x12mm', 'size: 20x12mm, file: a.bmp', '6:49: expected a file of'],
  [
    'size: 20x12mm',
    'size: 20x12mm, file: con.png',
    '6:49: "con.png" cannot name a file on every system',
  ],
  ['size: 20x12mm', 'size: 20x12mm, colour: #7a543e', '(a # begins a comment'],
  ['[gable, side]', '[gable, sied]', '9:26: no part is called "sied" | did you mean side?'],
  ['surface: brick, size: 10', 'surface: slate, size: 10', '7:21: no surface is called "slate"'],
  ['N-UK', 'N', '2:8: expected one of N-EU (1:160), N-US (1:160), N-UK (1:148), N-JP (1:150)'],
  ['20x12mm', '20x12furlong', '6:34: expected a size such as 120x80mm for size'],
  ['[20, 0]', '[20]', '7:50: expected another number of entries for parts.side.datum'],
  ['[20, 0]', '[20, east]', '7:50: expected a length such as 120mm'],
  ['photo: wall.png, ', '', '4:3: surfaces.brick needs photo, the photo'],
  ['wall.png', 'wall.jpg', '4:19: '],
  ['wall.png', '../wall.png', '4:19: "../wall.png" leads out of the job\'s folder | --anywhere'],
  ['wall.png', '/etc/hosts', '4:19: "/etc/hosts" is an absolute path'],
  ['wall.png', 'C:\\wall.png', '4:19: "C:\\\\wall.png" is an absolute path'],
  ['gaugerod: 1', 'gaugerod: 2', '1:11: is of form 2, and 1 is the newest known here'],
  ['gaugerod: 1', 'gaugerod: one', '1:11: expected 1 for gaugerod'],
  ['course: uk-metric', 'course: uk-metric, course: 75mm', '4:48: holds one key twice'],
  ['course: uk-metric', 'courses: 8', '4:10: expected what the counted courses are for course'],
  ['  side:', '\tside:', '7:1: is indented with a tab: use blanks'],
  ['parts:\n', 'parts:\n  ? [a, b]\n  : c\n', '6:3: '],
  ['size: 20x12mm', 'size: 20x12mm, weather: { soot: 2 }', '6:60: expected a number from 0 to 1'],
  ['size: 20x12mm', 'size: 20x12mm, weather: { foot: 2 }', '6:60: expected a preset or a strength'],
  ['size: 10x12mm', 'size: 10x12mm, file: GABLE.png', '7:3: side and gable would write one file'],
  ['size: 20x12mm', 'size: 20x12mm, file: ../x.png', '6:49: "../x.png" leads out of the folder'],
  ['scale: N-UK', 'scale: [N-UK, 1:148, N-UK]', '2:22: N-UK is given twice'],
  [
    'size: 20x12mm',
    'size: 20x12mm, stringCourse: [24]',
    '6:57: expected how far down and how high',
  ],
  [
    'size: 20x12mm',
    'size: 20x12mm, openings: true',
    '6:10: expected an outline whose openings are lit',
  ],
])('%s as %s is told of by line and column', async (from, to, told) => {
  const text = good.replace(from, to);
  expect(text).not.toBe(good);
  const said = await fault(text);
  expect(said).toMatch(/^works\.yaml:\d+:\d+: /);
  expect(said).toContain(told);
});

test('weather of the top is checked where no part takes it', async () => {
  const text = `gaugerod: 1
scale: N-UK
weather: { foot: 2 }
parts:
  girder: { relief: { section: UB 533x210x92, length: 5m }, colour: firebrick }
`;
  expect(await fault(text)).toContain('works.yaml:3:18: expected a preset or a strength');
});

test('several faults are counted, and the first is told', async () => {
  const text = good.replace('size: 20x12mm', 'siez: 20x12mm').replace('datum', 'dautm');
  expect(await fault(text)).toContain(
    '6:28: unknown key "siez" in parts.gable (and 1 more, in line 7)',
  );
});

test('aliases that multiply, loops of them and deep nesting are refused quickly', async () => {
  const tens = Array.from(
    { length: 12 },
    (_, i) => `a${i + 1}: &a${i + 1} [${Array(9).fill(`*a${i}`).join(',')}]`,
  );
  const bomb = `a0: &a0 [x]\n${tens.join('\n')}\n`;
  expect(await fault(bomb)).toContain('aliases');
  expect(await fault('a: &a [*a]')).toMatch(/works\.yaml/);
  expect(await fault('['.repeat(100_000))).toContain('is nested too deeply');
  expect(await fault('- '.repeat(100_000))).toContain('is nested too deeply');
});

test('what is no text, or of another YAML, is refused', async () => {
  expect(await fault(Uint8Array.of(0xff, 0xfe, 0x41, 0))).toContain('is no text in UTF-8');
  expect(await fault(`%YAML 1.1\n---\n${good}`)).toContain('is YAML 1.1, and 1.2 is read');
  expect(await fault(`${good}---\n${good}`)).toContain('holds several documents: a job is one');
  expect(await fault('!!js/function x')).toContain('works.yaml:1:1: holds a tag');
});

// YAML 1.2.2, 10.3.2: only decimal and 0o, 0x forms are numbers; 1.1 took 1:43 for 103.
test('a ratio is a ratio and no number of minutes', async () => {
  expect(await fault(good.replace('N-UK', '1:43'))).toBe('null');
});

test('names of the language itself are names like others', async () => {
  for (const name of ['__proto__', 'constructor', 'toString']) {
    const text = good.replace('  gable:', `  ${name}:`).replace('[gable', `[${name}`);
    const told = await fault(text);
    expect(told === 'null' || told.includes('works.yaml:')).toBe(true);
  }
  expect(
    await fault(good.replace('surface: brick, size: 20', 'surface: constructor, size: 20')),
  ).toContain('no surface is called "constructor"');
});
